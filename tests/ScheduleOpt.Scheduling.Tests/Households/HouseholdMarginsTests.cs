using NodaTime;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>Beside running rules, too, a finish margin costs no departure its energy and no schedule its check.</summary>
public class HouseholdMarginsTests
{
    [Fact]
    public void RandomMargins_BesideRunningRules_CostNoDepartureItsEnergy()
    {
        var (kept, missed) = (0, 0);
        for (var seed = 0; seed < 40; seed++)
        {
            var random = new Random(seed);
            var margin = Duration.FromMinutes(random.Next(1, 241));
            var question = Houses.One(RandomCases.Case(seed) with { FinishMargin = margin, GridStep = Duration.FromMinutes(30) }, Rules(random));
            var (problem, schedule) = HouseholdMargins.Solve(question, ShortfallOrder.LeastTotal, proveBound: false);
            var without = HouseholdScheduler.Solve(
                HouseholdProblemBuilder.Build(question, [new bool[problem.Cars[0].Problem.Departures.Length]]), ShortfallOrder.LeastTotal, proveBound: false);
            Assert.True(schedule.Cars[0].TripShortfallKwh.Sum() <= without.Cars[0].TripShortfallKwh.Sum() + 1e-3, $"seed {seed}");
            Assert.True(
                schedule.Cars[0].TripShortfallKwh.Concat(schedule.Cars[0].TargetShortfallKwh).Sum()
                <= without.Cars[0].TripShortfallKwh.Concat(without.Cars[0].TargetShortfallKwh).Sum() + 1e-3,
                $"seed {seed}");
            Assert.Empty(HouseholdCheck.Findings(problem, schedule, question));
            foreach (var departure in problem.Cars[0].Problem.Departures.Where(d => d.DueBoundary < d.Boundary))
            {
                var has = schedule.Cars[0].StoredKwh[departure.DueBoundary] >= departure.RequiredKwh - 0.01;
                Assert.Equal(departure.MarginKept, has);
                (kept, missed) = has ? (kept + 1, missed) : (kept, missed + 1);
            }
        }

        Assert.True(kept > 20 && missed > 0, $"{kept} kept, {missed} missed");
    }

    private static RunningRules Rules(Random random) => random.Next(3) switch
    {
        0 => new() { LeastOn = Duration.FromMinutes(60) },
        1 => new() { Adjustable = true, WholeAmperes = true },
        _ => new() { MostWindows = 1, LeastOff = Duration.FromMinutes(30) },
    };
}
