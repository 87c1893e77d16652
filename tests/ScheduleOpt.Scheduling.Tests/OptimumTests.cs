using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests;

/// <summary>The same optimum by four roads: GLOP merged, GLOP unmerged, CLP, and the direct sweep.</summary>
public class OptimumTests
{
    private const int Cases = 400;

    [Fact]
    public void Optimum_ByEveryRoad_IsTheSame()
    {
        for (var seed = 0; seed < Cases; seed++)
        {
            var problem = ChargingProblemBuilder.Build(RandomCases.Case(seed, negativePrices: seed % 3 == 0));
            var merged = Scheduler.Solve(problem);
            Assert.False(merged.LimitReached, $"seed {seed}");
            Same(seed, merged, Scheduler.Solve(problem, SolverChoice.Direct));
            Same(seed, merged, Scheduler.Solve(problem, SolverChoice.Glop, reduction: Reduction.Unmerged));
            Same(seed, merged, Scheduler.Solve(problem, SolverChoice.Direct, reduction: Reduction.Unmerged));
            if (seed % 4 == 0)
            {
                Same(seed, merged, Scheduler.Solve(problem, SolverChoice.Clp, reduction: Reduction.Unmerged));
            }
        }
    }

    [Fact]
    public void Shortfalls_BySweepAndByLp_AreTheSame()
    {
        var some = 0;
        for (var seed = 0; seed < Cases; seed++)
        {
            var problem = ChargingProblemBuilder.Build(RandomCases.Case(seed));
            var sweep = Shortfalls.InTimeOrder(Stages.Of(problem, Reduction.Merged));
            var lp = Scheduler.ShortfallsByLp(problem, SolverChoice.Glop);
            Assert.NotNull(lp);
            for (var k = 0; k < sweep.TripKwh.Length; k++)
            {
                Assert.True(Math.Abs(sweep.TripKwh[k] - lp.TripKwh[k]) < 1e-6, $"seed {seed}, trip {k}: {sweep.TripKwh[k]} {lp.TripKwh[k]}");
                Assert.True(Math.Abs(sweep.TargetKwh[k] - lp.TargetKwh[k]) < 1e-6, $"seed {seed}, target {k}: {sweep.TargetKwh[k]} {lp.TargetKwh[k]}");
            }

            some += sweep.Any ? 1 : 0;
        }

        Assert.InRange(some, Cases / 20, Cases * 19 / 20);
    }

    [Fact]
    public void LeastTotal_AgainstTimeOrder_IsNeverMore()
    {
        var less = 0;
        for (var seed = 0; seed < Cases; seed++)
        {
            var problem = ChargingProblemBuilder.Build(RandomCases.Case(seed));
            var time = Scheduler.Solve(problem);
            var total = Scheduler.Solve(problem, order: ShortfallOrder.LeastTotal);
            Assert.False(total.LimitReached, $"seed {seed}");
            Assert.True(Math.Abs(total.TripShortfallKwh.Sum() - time.TripShortfallKwh.Sum()) < 1e-5, $"seed {seed}");
            Assert.True(total.TargetShortfallKwh.Sum() <= time.TargetShortfallKwh.Sum() + 1e-5, $"seed {seed}");
            less += total.TargetShortfallKwh.Sum() < time.TargetShortfallKwh.Sum() - 1e-3 ? 1 : 0;
        }

        Assert.True(less > 0, "No case in which the order matters: the test shows nothing.");
    }

    /// <summary>A solve that is given up has values that mean nothing: held, they would be taken for the least that must go unmet.</summary>
    [Fact]
    public void LeastTotal_OfASolveGivenUp_IsNoneAndNeverAWrongOne()
    {
        var (none, some) = (0, 0);
        for (var seed = 0; seed < Cases; seed++)
        {
            var stages = Stages.Of(ChargingProblemBuilder.Build(RandomCases.Case(seed)), Reduction.Merged);
            var final = Shortfalls.InTimeOrder(stages).FinalKwh;
            using var whole = LinearProgram.ForShortfalls(stages, final, SolverChoice.Glop);
            using var cut = LinearProgram.ForShortfalls(stages, final, SolverChoice.Glop, mostSteps: 1 + (seed % 20));
            using var cutInOrder = LinearProgram.ForShortfalls(stages, final, SolverChoice.Glop, mostSteps: 1 + (seed % 20));
            var (least, found) = (whole.LeastTotal(), cut.LeastTotal());
            Assert.NotNull(least);
            none += found is null ? 1 : 0;
            none += cutInOrder.InTimeOrder() is null ? 1 : 0;
            if (found is not null)
            {
                some++;
                Assert.Equal(least.TripKwh.Sum(), found.TripKwh.Sum(), 1e-5);
                Assert.Equal(least.TargetKwh.Sum(), found.TargetKwh.Sum(), 1e-5);
                Assert.True(cut.IsOptimal, $"seed {seed}");
            }
        }

        Assert.True(none > 0 && some > 0, $"{none} given up, {some} solved");
    }

    private static void Same(int seed, LeastCost expected, LeastCost actual)
    {
        var tolerance = 1e-6 * Math.Max(1, Math.Abs(expected.Objective));
        Assert.True(
            Math.Abs(expected.Objective - actual.Objective) <= tolerance,
            $"seed {seed}: objective {expected.Objective} against {actual.Objective}; cost {expected.Cost} against {actual.Cost}; "
            + $"end {expected.StoredKwh[^1]} against {actual.StoredKwh[^1]}; trip {expected.TripShortfallKwh.Sum()} {actual.TripShortfallKwh.Sum()}");
        Assert.False(actual.LimitReached, $"seed {seed}");
    }
}
