using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Tests.Households;

/// <summary>The year is the same by every road: merged or not, by the sweep or the LP; and its bill is the biller's.</summary>
public sealed class YearEqualityTests
{
    private const int Households = 50;

    [Fact]
    public void Solve_AnyHousehold_IsEqualMergedUnmergedAndByTheLp() => Parallel.For(0, Households, seed =>
    {
        var problem = Problem(seed, out _, out _);
        var merged = Scheduler.Solve(problem, SolverChoice.Direct);
        var unmerged = Scheduler.Solve(problem, SolverChoice.Direct, reduction: Reduction.Unmerged);
        var program = Scheduler.Solve(problem, SolverChoice.Glop);

        var tolerance = 1e-6 * Math.Max(1, Math.Abs(merged.Objective));
        Assert.Equal(merged.Objective, unmerged.Objective, tolerance);
        Assert.Equal(merged.Objective, program.Objective, tolerance);
        Assert.Equal(merged.TripShortfallKwh.Sum(), unmerged.TripShortfallKwh.Sum(), 1e-6);
        Assert.Equal(merged.TargetShortfallKwh.Sum(), program.TargetShortfallKwh.Sum(), 1e-6);
    });

    [Fact]
    public void Run_AnyBehaviour_KeepsTheEnergyBalanceAndIsBilledAsTheBillerBills() => Parallel.For(0, Households, seed =>
    {
        var problem = Problem(seed, out var frame, out var plan);
        var setUp = new SetUpYear(frame, frame.Question.SetUps[0]);
        var cells = YearComparison.Run(frame.Question).Cells;
        foreach (var cell in cells)
        {
            Assert.Equal(
                cell.Energy.DriveKwh - cell.Energy.TripShortfallKwh,
                cell.Energy.HomeStoredKwh + cell.Away.StopStoredKwh + cell.EndCorrection.MissingKwh,
                1e-6);
            var run = cell.Behaviour switch
            {
                UnaidedBehaviour unaided => YearRun.Of(frame, setUp.Unpriced, unaided),
                LeastCostByNight byNight => YearRun.ByNight(frame, setUp, plan, byNight),
                _ => KnownAheadYear.Run(frame, setUp, plan),
            };
            var bill = Biller.Bill(plan.Plan, frame.House.Plus(run.Car), input: plan.Input);
            Assert.True(Math.Abs(bill.Total - cell.BillWithCar.Total) < 0.005m);
            Assert.Equal(cell.Energy.HomeWallKwh, (double)run.Car.TotalKilowattHours, 0.0176);
        }

        Assert.Equal(problem.Count, setUp.At(plan).Count);
    });

    private static ChargingProblem Problem(int seed, out YearFrame frame, out PlanYear plan)
    {
        frame = new YearFrame(YearHouseholds.Of(seed, gridMinutes: seed % 2 == 0 ? 15 : 60));
        plan = PlanYear.Of(frame, frame.Question.RatePlans[0]);
        return frame.Problem(frame.Question.SetUps[0], plan.Prices);
    }
}
