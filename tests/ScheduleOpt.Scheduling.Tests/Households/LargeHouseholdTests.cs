using System.Text.Json;
using NodaTime;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>Several cars over nights on a fine grid: work counted beforehand ends their search, never the clock, and what makes their programmes small keeps their bound.</summary>
public class LargeHouseholdTests
{
    private static readonly HouseholdTraits Week = new()
    {
        Cars = 2, Hours = 168, StepMinutes = 15, Solar = true, Demand = true, SharedCircuit = true, Rules = new() { Adjustable = true },
    };

    private static int Count => int.TryParse(Environment.GetEnvironmentVariable("SCHEDULEOPT_HOUSEHOLDS"), out var count) ? count : 0;

    [Theory]
    [InlineData(8, 15)]
    public void Schedule_OnAMachineThreeTimesSlower_IsTheSame(int seed, int stepMinutes) => SameByAnyClock(seed, Week with { StepMinutes = stepMinutes });

    // Some seconds each: one, unless many households are asked for.
    [Fact]
    public void Schedule_OfManyOnAFineGridOnAMachineThreeTimesSlower_IsTheSame()
    {
        for (var seed = 0; seed < Math.Clamp(Count, 1, 40); seed++)
        {
            SameByAnyClock(seed, Week with { StepMinutes = 5, Cars = 2 + (seed % 2) });
        }
    }

    [Fact]
    public void Search_TooLargeForWhatIsLeft_IsNotBegun()
    {
        var problem = RandomHouseholds.Problem(3, Week with { Hours = 40 });
        var relaxation = HouseholdRelaxation.Solve(problem);
        var plan = OnOffPlan.Integers(relaxation.Until(relaxation.Grid.Model.Cars.Max(c => c.IntegersUntil)));
        var few = SolveLimit.Default with { Work = new(), MostAltogether = 100 };
        var found = StrictOrder.Integers(plan, relaxation.Shortfalls, ShortfallOrder.InTimeOrder, few, null);
        Assert.True(found.IsTooLarge);
        Assert.False(found.IsSolved);
        Assert.Equal(0, few.Work.Units);

        var schedule = HouseholdScheduler.Solve(problem, ShortfallOrder.InTimeOrder, few);
        Assert.Empty(HouseholdCheck.Findings(problem, schedule).Concat(RunningFindings.Of(problem, schedule)));
        Assert.True(schedule.LimitReached);
        Assert.True(schedule.Bound <= schedule.Objective);
    }

    [Fact]
    public void Search_AfterOthersForTheHousehold_CountsTheirWork()
    {
        var limit = SolveLimit.Default with { Work = new(before: SolveLimit.Default.MostAltogether) };
        Assert.Equal(0, limit.Work.Units);
        Assert.False(limit.MayBegin(100));
        Assert.True((SolveLimit.Default with { Work = new() }).MayBegin(100));
    }

    [Fact]
    public void SlidingAverages_OfWhichOnlySomeAreCounted_GiveABoundThatIsNoHigherFromFewerSegments()
    {
        var (sliding, lower) = (0, 0);
        for (var seed = 0; seed < 16; seed++)
        {
            var problem = RandomHouseholds.Problem(seed, new() { Cars = 2, Hours = 36, StepMinutes = 5, Demand = true, SharedCircuit = true });
            var model = HouseholdModel.Of(problem);
            if (!model.Terms.OfType<PeakModel>().Any(t => t.Sliding && t.Windows.Max(w => w.Hours.Length) > 1))
            {
                continue;
            }

            var whole = HouseholdRelaxation.Solve(problem);
            var peaks = HouseholdRelaxation.Solve(Segments.Following(model, 0, whole.Grid.Expanded(whole.Powers)), ShortfallOrder.InTimeOrder);
            var few = HouseholdRelaxation.Solve(Segments.Following(model, 0, null), ShortfallOrder.InTimeOrder);
            sliding++;
            lower += few.Objective < whole.Objective - 1e-4 ? 1 : 0;
            Assert.True(few.Objective <= peaks.Objective + 1e-6 && peaks.Objective <= whole.Objective + 1e-6, $"seed {seed}: {few.Objective}, {peaks.Objective}, {whole.Objective}");
            Assert.True(few.Grid.Count < whole.Grid.Count && peaks.Grid.Count <= whole.Grid.Count, $"seed {seed}: {few.Grid.Count}, {peaks.Grid.Count}, {whole.Grid.Count} segments");
        }

        Assert.True(sliding > 2 && lower > 0, $"{sliding} have averages that slide, {lower} a lower bound without some.");
    }

    [Fact]
    public void LeastShortfalls_WithWhatIsKnownOfThem_AreTheSameOrMoreThanIsKnown()
    {
        var (same, more) = (0, 0);
        for (var seed = 0; seed < 60; seed++)
        {
            var model = HouseholdModel.Of(RandomHouseholds.Problem(seed, new() { Cars = 2, Hours = 60, SharedCircuit = true }));
            var open = OnOffPlan.Relaxed(Segments.Unmerged(model));
            var random = new Random(seed);
            bool[][] on = [.. model.Cars.Select(_ => Enumerable.Range(0, model.Problem.Count).Select(_ => random.Next(4) > 0).ToArray())];
            var decided = DecidedPlan.Of(open.Grid, on);
            foreach (var order in Enum.GetValues<ShortfallOrder>())
            {
                var noLess = LeastShortfalls.Of(open, order, SolveLimit.Default)!.Shortfalls;
                if (LeastShortfalls.Of(decided, order, SolveLimit.Default) is not { } least)
                {
                    continue;
                }

                var sooner = LeastShortfalls.Of(decided, order, SolveLimit.Default, noLess, least.Shortfalls);
                Assert.Null(sooner!.Powers);
                Assert.Equal(0, sooner.Shortfalls.Compare(least.Shortfalls, model, order, room: 1e-5));
                same += least.Shortfalls.Any ? 1 : 0;

                // Against a schedule that leaves less it need not be looked for to the end: these powers leave more, as all would.
                var ended = LeastShortfalls.Of(decided, order, SolveLimit.Default, noLess, noLess)!;
                Assert.Equal(least.Shortfalls.Compare(noLess, model, order, room: 1e-3) > 0, ended.Powers is not null);
                if (ended.Powers is { } powers)
                {
                    var run = RunnableSchedule.Of(model, new(model.Problem), decided.Grid.Expanded(powers), ended.Shortfalls.TripKwh);
                    Assert.True(run.Shortfalls.Compare(noLess, model, order, room: 1e-5) > 0, $"seed {seed}");
                    more++;
                }
            }
        }

        Assert.True(same > 20 && more > 10, $"{same} and {more}");
    }

    [Fact]
    public void LeastLengths_OfSeveralCarsAndOfOne_GiveTheSameOptimum()
    {
        // One car has a row for each pair of intervals; beside a second that never charges the same car has one for each interval.
        var rules = new RunningRules { LeastOn = Duration.FromHours(2), LeastOff = Duration.FromHours(2) };
        var (solved, above) = (0, 0);
        for (var seed = 0; seed < 12; seed++)
        {
            var one = RandomHouseholds.Problem(seed, new() { Hours = 24, Demand = true, Rules = rules });
            var idle = one.Cars[0] with { MostA = [.. one.Cars[0].MostA.Select(_ => 0.0)] };
            var (alone, beside) = (AboveRelaxation(one), AboveRelaxation(one with { Cars = [one.Cars[0], idle] }));
            Assert.Equal(alone is null, beside is null);
            solved += alone is null ? 0 : 1;
            above += alone > 0.01 ? 1 : 0;
            Assert.Equal(alone ?? 0, beside ?? 0, 1e-4);
        }

        Assert.True(solved > 6 && above > 0, $"{solved} solved, {above} dearer for their lengths.");

        static double? AboveRelaxation(HouseholdProblem problem)
        {
            var relaxation = HouseholdRelaxation.Solve(problem);
            var plan = OnOffPlan.Integers(Segments.Unmerged(relaxation.Grid.Model), throughout: true);
            var optimum = StrictOrder.Integers(plan, relaxation.Shortfalls, ShortfallOrder.InTimeOrder, new(200_000, 1e-6, 1e-6, 120_000), null);
            return optimum.IsSolved ? optimum.Objective - relaxation.Objective : null;
        }
    }

    private static void SameByAnyClock(int seed, HouseholdTraits traits)
    {
        var problem = RandomHouseholds.Problem(seed, traits);
        var guard = SolveLimit.Default.GuardMilliseconds;
        var slow = HouseholdScheduler.Solve(problem, ShortfallOrder.InTimeOrder, SolveLimit.Default with { GuardMilliseconds = guard / 3 });
        var unguarded = HouseholdScheduler.Solve(problem, ShortfallOrder.InTimeOrder, SolveLimit.Default with { GuardMilliseconds = 100 * guard });
        Assert.Equal(SolveRoute.Integers, slow.Route);
        Assert.Equal(JsonSerializer.Serialize(unguarded), JsonSerializer.Serialize(slow));
    }
}
