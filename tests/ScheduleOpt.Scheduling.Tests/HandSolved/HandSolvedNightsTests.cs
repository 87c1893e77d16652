using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling.Windows;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.HandSolved;

/// <summary>Nights of a few intervals whose answers were worked out with a pencil; the working stands beside each.</summary>
public class HandSolvedNightsTests
{
    [Fact]
    public void TwoPrices_ChargesInTheCheapHour()
    {
        // 7 kWh needed, one hour at 7 kW stores it: the hour at 0.10, 7.5 kWh at the wall: 0.75.
        var problem = Problems.OneNight([0.30, 0.10, 0.20], requiredKwh: 17, initialKwh: 10);
        var least = Scheduler.Solve(problem);
        Assert.Equal(0.75, least.Cost, 9);
        Assert.Equal([0.0, 1.0, 0.0], least.Shares.Select(s => Math.Round(s, 9)));
    }

    [Fact]
    public void HalfAnHourMore_SpillsIntoTheNextCheapest()
    {
        // 10.5 kWh: 7 at 0.10, 3.5 at 0.20 in half an hour: 0.75 + 3.75 * 0.20 = 1.50.
        var problem = Problems.OneNight([0.30, 0.10, 0.20], requiredKwh: 20.5, initialKwh: 10);
        var least = Scheduler.Solve(problem);
        Assert.Equal(1.50, least.Cost, 9);

        // One window: the half hour lies beside the full one.
        var window = Assert.Single(WindowPlanner.Plan(problem, least));
        Assert.Equal(1.5, window.Hours, 3);
    }

    [Fact]
    public void MoreThanTheNightCanGive_FallsShortByTheRest()
    {
        // Three hours at 7 kW store 21 of the 30 kWh asked for: 9 are missing, everything is used, 7.5 * 0.60 = 4.50.
        var problem = Problems.OneNight([0.30, 0.10, 0.20], requiredKwh: 40, initialKwh: 10);
        var least = Scheduler.Solve(problem);
        Assert.Equal(9, Assert.Single(least.TargetShortfallKwh), 9);
        Assert.Equal(4.50, least.Cost, 9);
        Assert.Equal(31, least.StoredKwh[^1], 9);
    }

    /// <summary>Case 46 of the physics checks: on 120 V, 12 A a kWh stored at 0.20 in a warm hour (21 degC) costs 0.257, at 0.10 in a cold one
    /// (-6.7 degC) 0.296. An exact result of the charging model at its defaults.</summary>
    [Fact]
    public void OrdinaryOutlet_TheDearWarmHourBeatsTheCheapColdOne()
    {
        double warm = Temperature.FromFahrenheit(70).Celsius, cold = Temperature.FromFahrenheit(20).Celsius;
        var net = new[] { warm, cold }.Select(t => ChargingModel.NetRateKw(1.44, t, ChargingConstants.Default)).ToArray();
        Assert.Equal(0.257, 0.20 * 1.44 / net[0], 3);
        Assert.Equal(0.296, 0.10 * 1.44 / net[1], 3);

        var night = Problems.OneNight([0.20, 0.10], requiredKwh: 10.4, initialKwh: 10, wallKw: 1.44, netKw: 0);
        night.NetKw[0] = net[0];
        night.NetKw[1] = net[1];
        var least = Scheduler.Solve(night);
        Assert.Equal(0.4 / net[0], least.Shares[0], 9);
        Assert.Equal(0, least.Shares[1], 9);
    }

    [Fact]
    public void NothingToStore_IsNeverSwitchedOn()
    {
        // At -20 degC an ordinary outlet stores nothing: the wish is missed whole, and no energy is burned for it.
        Assert.Equal(0, ChargingModel.NetRateKw(1.44, -20, ChargingConstants.Default));
        var problem = Problems.OneNight([0.10, 0.10], requiredKwh: 12, initialKwh: 10, wallKw: 1.44, netKw: 0);
        var least = Scheduler.Solve(problem);
        Assert.Equal(0, least.Cost);
        Assert.Equal(2, Assert.Single(least.TargetShortfallKwh), 9);
        Assert.Empty(WindowPlanner.Plan(problem, least));
    }

    [Fact]
    public void NegativePrice_FillsToTheLimitAndNoFurther()
    {
        // At -0.05 each stored kWh earns 0.05 / 0.93; the limit of 14 kWh leaves room for 4, none is burned beyond it.
        var problem = Problems.OneNight([-0.05, 0.20], requiredKwh: 0, initialKwh: 10);
        problem.UpperKwh[1] = problem.UpperKwh[2] = 14;
        var least = Scheduler.Solve(problem);
        Assert.Equal(14, least.StoredKwh[^1], 9);
        Assert.Equal(-0.05 / 0.93 * 4, least.Cost, 9);
    }

    [Fact]
    public void EndValue_BuysOnlyWhatIsCheaperThanItIsWorth()
    {
        // A stored kWh costs p * 7.5 / 7: 0.107, 0.214, 0.321. Worth 0.25 at the end, two hours pay: 14 kWh for 2.25, worth 3.50.
        var problem = Problems.OneNight([0.30, 0.10, 0.20], requiredKwh: 0, initialKwh: 10, endValuePerKwh: 0.25);
        var least = Scheduler.Solve(problem);
        Assert.Equal(2.25, least.Cost, 9);
        Assert.Equal(2.25 - (0.25 * 24), least.Objective, 9);
    }

    [Fact]
    public void EqualCost_EarlyOrLate_AsAsked()
    {
        var problem = Problems.OneNight([0.10, 0.30, 0.10], requiredKwh: 17, initialKwh: 10);

        // A merged year knows the two cheap hours as one column, which fills from its start; unmerged the choice shows.
        var early = Scheduler.Solve(problem, Solvers.SolverChoice.Direct, reduction: Reduction.Unmerged, equalCost: EqualCost.ChargeEarly);
        var late = Scheduler.Solve(problem, Solvers.SolverChoice.Direct, reduction: Reduction.Unmerged, equalCost: EqualCost.ChargeLate);
        Assert.Equal([1.0, 0.0, 0.0], early.Shares);
        Assert.Equal([0.0, 0.0, 1.0], late.Shares);
    }

    [Fact]
    public void TwoCheapHoursApart_AreTwoWindowsOnlyIfOneWouldCostMore()
    {
        // 14 kWh: the hours at 0.10 lie apart. One window would take the hour at 0.30 between: 7.5 * 0.20 = 1.50 more. So two.
        var apart = Problems.OneNight([0.10, 0.30, 0.10], requiredKwh: 24, initialKwh: 10);
        Assert.Equal(2, WindowPlanner.Plan(apart, Scheduler.Solve(apart)).Count);

        // With 0.1001 between, one window costs 7.5 * 0.0001 = 0.00075 more: within a tenth of a cent, so one.
        var near = Problems.OneNight([0.10, 0.1001, 0.10], requiredKwh: 24, initialKwh: 10);
        Assert.Single(WindowPlanner.Plan(near, Scheduler.Solve(near)));
    }
}
