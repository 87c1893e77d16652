using System.Text.Json;
using NodaTime;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Scheduling.Windows;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>Random households: rules and limits held, cost as a naive count has it, gap within the rule of the proven optimum of integers over everything.</summary>
public class RandomHouseholdTests
{
    private const int Sample = 40;

    // The search is ended by its nodes alone, however busy the machine.
    private static readonly SolveLimit ByNodes = SolveLimit.Default with { GuardMilliseconds = 120_000 };
    private static readonly SolveLimit Proof = new(200_000, 1e-6, 1e-6, 120_000);

    private static int Count => int.TryParse(Environment.GetEnvironmentVariable("SCHEDULEOPT_HOUSEHOLDS"), out var count) ? count : Sample;

    [Fact]
    public void Schedule_AgainstIntegersOverEverything_IsWithinTheGap()
    {
        var (proven, integers, stopped) = (0, 0, 0);
        var faults = new List<string>();
        for (var seed = 0; seed < Count; seed++)
        {
            var problem = RandomHouseholds.Small(seed);
            var schedule = HouseholdScheduler.Solve(problem, ShortfallOrder.InTimeOrder, ByNodes);
            faults.AddRange(RunningFindings.Of(problem, schedule).Select(f => $"seed {seed}: {f}"));
            integers += schedule.Route == SolveRoute.Integers ? 1 : 0;

            var model = HouseholdModel.Of(problem);
            var least = HouseholdRelaxation.Solve(Segments.Of(model), ShortfallOrder.InTimeOrder).Shortfalls;
            var held = new HouseholdShortfalls(
                0,
                [.. schedule.Cars.Select((c, k) => Exact(problem, k, c.TripShortfallKwh, least.TripKwh[k]))],
                [.. schedule.Cars.Select((c, k) => Exact(problem, k, c.TargetShortfallKwh, least.TargetKwh[k]))],
                new double[model.Cars.Length]);
            var plan = OnOffPlan.Integers(Segments.Unmerged(model), throughout: true);
            var optimum = StrictOrder.Integers(plan, held, ShortfallOrder.InTimeOrder, Proof, null);
            if (!optimum.IsSolved || optimum.LimitReached)
            {
                continue;
            }

            proven++;
            // The gap of the rule, and what step 3 may give up.
            var room = Math.Max(HouseholdScheduler.FineGapAtLeast, HouseholdScheduler.FineGapShare * Math.Abs(optimum.Bound))
                + Math.Max(WindowPlanner.GiveUpAtLeast, WindowPlanner.GiveUpShare * Math.Abs(optimum.Bound));
            if (schedule.Objective - optimum.Bound > room + 1e-6 && schedule.LimitReached)
            {
                // The answer says so itself, and its bound holds; few may.
                stopped++;
            }
            else if (schedule.Objective - optimum.Bound > room + 1e-6)
            {
                faults.Add($"seed {seed}: objective {schedule.Objective} against {optimum.Bound}, limit reached {schedule.LimitReached}, {problem.Cars[0].Rules}");
            }

            if (schedule.Bound > optimum.Objective + (1e-5 * Math.Max(1, Math.Abs(optimum.Objective))))
            {
                faults.Add($"seed {seed}: bound {schedule.Bound} above the optimum {optimum.Objective}");
            }
        }

        TestContext.Current.SendDiagnosticMessage($"{proven} of {Count} proven, {integers} by integers, {stopped} stopped above the gap.");
        Assert.True(faults.Count == 0, string.Join(Environment.NewLine, faults.Take(40)));
        Assert.True(proven > Count * 0.9, $"Only {proven} of {Count} proven.");
        Assert.InRange(integers, 1, Count - 1);
        Assert.True(stopped <= Math.Max(1, Count * 0.002), $"{stopped} of {Count} were stopped above the gap.");
    }

    /// <summary>Shortfalls without what windows miss because they begin and end on whole seconds: the bound is one of the exact problem.</summary>
    private static double[] Exact(HouseholdProblem problem, int car, double[] kwh, double[] least)
    {
        var oneSecond = problem.Cars[car].Problem.WallKw.Max() / 3600;
        return [.. kwh.Zip(least, (missed, must) => missed - must <= oneSecond ? Math.Min(missed, must) : missed)];
    }

    [Fact]
    public void Schedule_OfEqualInput_IsEqualToTheByte()
    {
        for (var seed = 0; seed < Math.Min(Count, 200); seed += 4)
        {
            var first = JsonSerializer.Serialize(HouseholdScheduler.Solve(RandomHouseholds.Small(seed), ShortfallOrder.InTimeOrder, ByNodes));
            Assert.Equal(first, JsonSerializer.Serialize(HouseholdScheduler.Solve(RandomHouseholds.Small(seed), ShortfallOrder.InTimeOrder, ByNodes)));
        }
    }

    [Fact]
    public void Schedule_LeastTotal_NeverMissesMore()
    {
        for (var seed = 0; seed < Math.Min(Count, 200); seed++)
        {
            var problem = RandomHouseholds.Small(seed);
            var time = HouseholdRelaxation.Solve(problem);
            var total = HouseholdRelaxation.Solve(problem, ShortfallOrder.LeastTotal);
            Assert.True(total.Shortfalls.Trips <= time.Shortfalls.Trips + 1e-5, $"seed {seed}");
            if (Math.Abs(total.Shortfalls.Trips - time.Shortfalls.Trips) < 1e-6)
            {
                Assert.True(total.Shortfalls.Targets <= time.Shortfalls.Targets + 1e-5, $"seed {seed}");
            }
        }
    }

    [Fact]
    public void LeastShortfalls_ByGlopAndByClp_AreTheSame()
    {
        var some = 0;
        for (var seed = 0; seed < Math.Min(Count, 400); seed++)
        {
            var model = HouseholdModel.Of(RandomHouseholds.Small(seed));
            var plan = OnOffPlan.Relaxed(Segments.Of(model));
            foreach (var order in Enum.GetValues<ShortfallOrder>())
            {
                var byGlop = LeastShortfalls.By(plan, order, SolveLimit.Default, byClp: false);
                var byClp = LeastShortfalls.By(plan, order, SolveLimit.Default, byClp: true);
                Assert.NotNull(byGlop);
                Assert.NotNull(byClp);
                Assert.Equal(0, byGlop.Shortfalls.Compare(byClp.Shortfalls, model, order, room: 1e-5));
                some += byClp.Shortfalls.Any ? 1 : 0;
            }
        }

        Assert.True(some > 0, "None of them had a shortfall.");
    }

    [Fact]
    public void LeastShortfalls_OfCarsAlone_AreThoseOfTheProgrammeWhereNoLimitBinds()
    {
        var (equal, more) = (0, 0);
        for (var seed = 0; seed < Math.Clamp(Count, 200, 400); seed++)
        {
            var model = HouseholdModel.Of(RandomHouseholds.Small(seed));
            var byProgramme = LeastShortfalls.Of(OnOffPlan.Relaxed(Segments.Unmerged(model)), ShortfallOrder.InTimeOrder, SolveLimit.Default);
            var alone = ShortfallsAlone.Of(model);
            Assert.NotNull(byProgramme);
            var compared = byProgramme.Shortfalls.Compare(alone, model, ShortfallOrder.InTimeOrder, room: 1e-5);
            Assert.True(compared >= 0, $"seed {seed}: the programme leaves less unmet than cars alone.");
            if (model.Limits.All(l => Enumerable.Range(0, model.Problem.Count).All(i => l.IsSlack(model.Cars, i))))
            {
                Assert.True(compared == 0, $"seed {seed}: the programme leaves more unmet though no limit can bind.");
                equal += alone.Any ? 1 : 0;
            }

            more += compared > 0 ? 1 : 0;
        }

        Assert.True(equal > 0, "None of them had a shortfall.");
        Assert.True(more > 0, "No limit ever made a difference.");
    }

    [Fact]
    public void Relaxation_OfCarsThatShare_IsTheSameWhereStepOneBeginsWithCarsAlone()
    {
        var together = 0;
        for (var seed = 0; seed < Math.Clamp(Count, 100, 400); seed++)
        {
            HouseholdTraits traits = new() { Cars = 2 + (seed % 2), SharedCircuit = seed % 4 > 0, ImportLimit = seed % 4 == 0, Hours = 20 + (seed % 40), Rules = new() { Adjustable = seed % 3 > 0 } };
            var model = HouseholdModel.Of(RandomHouseholds.Problem(seed, traits));
            var grid = Segments.Of(model);
            var begun = HouseholdRelaxation.Solve(grid, ShortfallOrder.InTimeOrder);
            var plain = HouseholdRelaxation.Solve(grid, ShortfallOrder.InTimeOrder, stepOneBySweep: false);
            Assert.True(begun.Shortfalls.Compare(plain.Shortfalls, model, ShortfallOrder.InTimeOrder, room: 1e-5) == 0, $"seed {seed}: other shortfalls.");
            Assert.True(Math.Abs(begun.Objective - plain.Objective) < 1e-4 * Math.Max(1, Math.Abs(plain.Objective)), $"seed {seed}: {begun.Objective} against {plain.Objective}.");
            together += plain.Shortfalls.Compare(ShortfallsAlone.Of(model), model, ShortfallOrder.InTimeOrder, room: 1e-5) > 0 ? 1 : 0;
        }

        Assert.True(together > 10, $"Only {together} are short because they share.");
    }

    [Theory]
    [InlineData(65)]
    [InlineData(75)]
    [InlineData(15)]
    [InlineData(21)]
    [InlineData(4)]
    [InlineData(10)]
    public void Schedule_OfAdjustableCarsThatShare_LeavesNoMoreUnmetThanAtFullCurrent(int seed)
    {
        HouseholdTraits traits = new()
        {
            Cars = 2 + (seed % 2), SharedCircuit = true, Demand = seed % 3 == 0, Hours = seed % 5 == 0 ? 96 : 30, StepMinutes = seed % 2 == 0 ? 60 : 30,
        };
        var problem = RandomHouseholds.Problem(seed, traits with { Rules = new() { Adjustable = true } });
        var full = HouseholdScheduler.Solve(RandomHouseholds.Problem(seed, traits), ShortfallOrder.InTimeOrder, ByNodes);
        var adjustable = HouseholdScheduler.Solve(problem, ShortfallOrder.InTimeOrder, ByNodes);
        Assert.True(Unmet(adjustable).Compare(Unmet(full), HouseholdModel.Of(problem), ShortfallOrder.InTimeOrder, room: 0.01) <= 0);

        static HouseholdShortfalls Unmet(HouseholdSchedule schedule) =>
            new(0, [.. schedule.Cars.Select(c => c.TripShortfallKwh)], [.. schedule.Cars.Select(c => c.TargetShortfallKwh)], new double[schedule.Cars.Count]);
    }

    [Fact]
    public void Bound_AgainstRandomSchedules_IsNeverBeaten()
    {
        var tried = 0;
        for (var seed = 0; seed < Count; seed++)
        {
            var problem = RandomHouseholds.Small(seed);
            var relaxation = HouseholdRelaxation.Solve(problem);
            for (var k = 0; k < 20; k++)
            {
                var random = RandomRun.Of(problem, (1000 * seed) + k);
                if (random.Compare(relaxation, ShortfallOrder.InTimeOrder) == 0)
                {
                    tried++;
                    Assert.True(random.Objective >= relaxation.Bound - 1e-5, $"seed {seed}, {k}: {random.Objective} below {relaxation.Bound}");
                }
            }
        }

        Assert.True(tried > Count, $"Only {tried} schedules to compare with.");
    }

    [Fact]
    public void Merging_RandomHouseholds_KeepsTheOptimum()
    {
        var fewer = 0;
        for (var seed = 0; seed < Count; seed++)
        {
            var problem = RandomHouseholds.Small(seed);
            var merged = HouseholdRelaxation.Solve(problem);
            var unmerged = HouseholdRelaxation.Solve(Segments.Unmerged(HouseholdModel.Of(problem)), ShortfallOrder.InTimeOrder);
            Assert.Equal(unmerged.Objective, merged.Objective, 1e-5 * Math.Max(1, Math.Abs(unmerged.Objective)));
            fewer += merged.Grid.Count < problem.Count ? 1 : 0;
        }

        Assert.True(fewer > Count / 6, $"Only {fewer} were merged.");
    }
}
