using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Tests.Households;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

/// <summary>Every plan of <c>tariffs/</c> over the year of random households, all invented: the optimum is the same by every road, and known ahead is not beaten, and nothing is cheaper than its bound.</summary>
public sealed class EveryPlanYearTests(ITestOutputHelper output)
{
    private const int Households = 50;

    // Of the plans those whose prices per kWh say all that charging at home changes (28 November 2026).
    private const int LeastPlans = 5;
    private const int Seeds = 2;

    [Fact]
    public void Solve_EveryPlanWithoutCoupledCharges_IsEqualMergedUnmergedAndByTheLp()
    {
        var (ran, skipped) = (new List<string>(), new List<string>());
        foreach (var plan in RatePlanLibrary.All)
        {
            if (!PlanHouseholds.Of(plan, 0, out var first).Coupled.IsEmpty)
            {
                skipped.Add(plan.Id);
                continue;
            }

            ran.Add(plan.Id);
            Parallel.For(0, Households, seed =>
            {
                var year = PlanHouseholds.Of(plan, seed, out var frame);
                var problem = frame.Problem(frame.Question.SetUps[0], year.Prices);
                var direct = Scheduler.Solve(problem, SolverChoice.Direct);
                var unmerged = Scheduler.Solve(problem, SolverChoice.Direct, reduction: Reduction.Unmerged);
                var program = Scheduler.Solve(problem, SolverChoice.Glop);
                var tolerance = 1e-6 * Math.Max(1, Math.Abs(direct.Objective));
                Assert.False(program.LimitReached);
                Assert.Equal(direct.Objective, unmerged.Objective, tolerance);
                Assert.Equal(direct.Objective, program.Objective, tolerance);
                Assert.Equal(direct.TripShortfallKwh.Sum(), program.TripShortfallKwh.Sum(), 1e-6);
                Assert.Equal(direct.TargetShortfallKwh.Sum(), program.TargetShortfallKwh.Sum(), 1e-6);
            });
        }

        output.WriteLine($"Ran {ran.Count}: {string.Join(", ", ran)}. With charges that a price per kWh does not say {skipped.Count}: {string.Join(", ", skipped)}.");
        Assert.True(ran.Count >= LeastPlans, string.Join(", ", skipped));
    }

    [Fact]
    public void Run_EveryPlan_KnownAheadIsNoDearerThanByNightThatIsNoReadierAndNoBehaviourIsBelowItsBound()
    {
        var plans = RatePlanLibrary.All;
        var found = new string[plans.Count * Seeds];
        Parallel.For(0, found.Length, i =>
        {
            var plan = PlanHouseholds.Of(plans[i % plans.Count], i, out var frame);
            var cells = YearComparison.Run(frame.Question).Cells.Where(c => c.RatePlan.Id == plan.Plan.Id).ToArray();
            var (ahead, night) = (cells.Single(c => c.Behaviour is LeastCostKnownAhead), cells.Single(c => c.Behaviour is LeastCostByNight));
            var gap = ahead.WholeHouseCost - ahead.BoundCost;
            found[i] = FormattableString.Invariant(
                $"{plan.Plan.Id}: known ahead {ahead.WholeHouseCost:0.00}, by night {night.WholeHouseCost:0.00}, bound {ahead.BoundCost:0.00}, gap {gap:0.00} ({gap / ahead.BoundCost:P2}); convex {plan.Coupled.IsConvex}");
            if (night.Readiness.Ready >= ahead.Readiness.Ready && night.Readiness.OnTarget >= ahead.Readiness.OnTarget)
            {
                Assert.True(ahead.WholeHouseCost <= night.WholeHouseCost + 0.005m, found[i]);
            }

            Assert.True(plan.Least.HasBound, string.Join(' ', plan.Least.Bill.Open));
            // Where a charge is not convex, or is the mean of days' peaks, the bound is that of a hull: wider.
            Assert.True(gap <= Math.Max(1, (plan.Coupled.IsConvex ? 0.002m : plan.Coupled.Bands.Count == 0 ? 0.01m : 0.05m) * ahead.BoundCost!.Value), found[i]);
            Assert.Equal(gap < 0, ahead.Warnings.Contains(KnownAheadYear.BelowBound));
            AssertNoneBelow(frame, plan, cells);
        });
        Array.ForEach(found, output.WriteLine);
    }

    // Ready or not: each behaviour against the least that any charging costs which ends with as much energy.
    private static void AssertNoneBelow(YearFrame frame, PlanYear plan, YearCell[] cells)
    {
        var year = new SetUpYear(frame, frame.Question.SetUps[0]).At(plan);
        var bounds = new Dictionary<double, double>();
        foreach (var cell in cells)
        {
            var final = Math.Round(year.InitialKwh - cell.EndCorrection.MissingKwh, 9);
            if (!bounds.TryGetValue(final, out var bound))
            {
                bounds[final] = bound = CashBound.Of(frame, year, plan, final - 1e-9);
            }

            var cash = (double)(cell.CarShare + cell.Away.Cost);
            Assert.True(bound <= cash + 1e-6, $"{plan.Plan.Id}, {cell.Behaviour!.Name}: {bound} above {cash}");
        }
    }
}
