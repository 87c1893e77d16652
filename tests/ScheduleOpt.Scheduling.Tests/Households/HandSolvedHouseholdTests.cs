using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households;
using static ScheduleOpt.Scheduling.Tests.Households.HandMade;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>Households small enough to be solved by hand; the sum stands beside each.</summary>
public class HandSolvedHouseholdTests
{
    private static readonly NodaTime.Interval Month = Hours(-200, 500);

    [Fact]
    public void Demand_FlatIsCheaperThanPeak()
    {
        // 8 kWh in four hours: 2 kW throughout. 8 * 0.10 + 2 * 1.00.
        var schedule = Solve(new(4) { Import = [0.1, 0.1, 0.1, 0.1], Terms = [Demand(1m, 0)], Cars = [new() { Required = 8 }] });
        Assert.Equal(2.8, schedule.Cost, 6);
        Assert.All(Enumerable.Range(0, 4), i => Assert.Equal(2, schedule.Cars[0].CurrentA[i] * schedule.Cars[0].Shares[i], 6));
        Assert.Equal(SolveRoute.Linear, schedule.Route);
    }

    [Fact]
    public void Demand_BelowWhatIsBilledAnyway_CostsNothing() =>
        Assert.Equal(0.8, Solve(new(4) { Import = [0.1, 0.1, 0.1, 0.1], Terms = [Demand(1m, 3)], Cars = [new() { Required = 8 }] }).Cost, 6);

    [Fact]
    public void Demand_AtFullCurrent_ChargesOnePartOfEachAverage()
    {
        // Averages over two hours; 7 kW or nothing: 7 kWh in each pair of hours is an average of 3.5 kW.
        var schedule = Solve(new(4)
        {
            Import = [0.1, 0.1, 0.1, 0.1],
            Terms = [Demand(1m, 0, hours: 2)],
            Cars = [new() { Required = 14, Rules = RunningRules.FullCurrent }],
        });
        Assert.Equal(1.4 + 3.5, schedule.Cost, 6);
    }

    [Fact]
    public void Demand_WithTwoBlocks_IsPricedByBlock() =>
        // 20 kWh in four hours: 5 kW; 4 kW at 1.00, 1 kW at 3.00.
        Assert.Equal(
            2 + 4 + 3,
            Solve(new(4)
            {
                Import = [0.1, 0.1, 0.1, 0.1],
                Terms = [new DemandTerm("d", Month, true, [Month], NodaTime.Duration.FromHours(1), false, 0, 0, 0, [new(4, 1), new(null, 3)], null)],
                Cars = [new() { Required = 20 }],
            }).Cost,
            6);

    [Fact]
    public void Demand_Sliding_SeesTheAverageAcrossTheClock()
    {
        // Two-hour averages that begin every hour: the middle pair counts as well. 8 kWh in hours 1 and 2 only: 4 kW there.
        var schedule = Solve(new(4)
        {
            Import = [9, 0.1, 0.1, 9],
            Terms = [Demand(1m, 0, hours: 2, sliding: true)],
            Cars = [new() { Required = 8 }],
        });
        Assert.Equal(0.8 + 4, schedule.Cost, 6);
    }

    [Fact]
    public void Block_TheEdgeSendsTheRestElsewhere() =>
        // First hour 0.10 up to 5 kWh and 0.30 beyond, second hour 0.20: 5 * 0.10 + 3 * 0.20.
        Assert.Equal(
            1.1,
            Solve(new(2)
            {
                Import = [0.1, 0.2],
                Terms = [new BlockTerm("b", Month, true, [Hours(0, 1)], 0, [new(5, 0.1m), new(null, 0.3m)], 0, false)],
                Cars = [new() { Required = 8 }],
            }).Cost,
            6);

    [Fact]
    public void Block_Declining_IsWorthReaching()
    {
        // Span price 0.20 is the first block's; beyond 4 kWh 0.05. An end value of 0.10: 7 kWh cost 4 * 0.20 + 3 * 0.05 = 0.95, less 0.70; nothing costs 0; 14 kWh cost 0.80 + 0.50 less 1.40.
        var schedule = Solve(new(2)
        {
            Import = [0.2, 0.2],
            Terms = [new BlockTerm("b", Month, false, [Month], 0, [new(4, 0.2m), new(null, 0.05m)], 0, false)],
            Cars = [new() { EndValue = 0.1 }],
        });
        Assert.Equal(1.3 - 1.4, schedule.Objective, 4);
        Assert.Equal(1.3, schedule.Cost, 4);
    }

    [Fact]
    public void WholeUse_ReachingTheNextBlock_RepricesAllOfIt()
    {
        // 96 kWh used at 0.20; above 100 kWh everything is at 0.10. Required 4 kWh: 4 * 0.20 = 0.80; 5 kWh: 101 * 0.10 - 96 * 0.20 = -9.10 and less with little more than 4.
        var schedule = Solve(new(2)
        {
            Import = [0.2, 0.2],
            Terms = [new BlockTerm("b", Month, false, [Month], 96, [new(100, 0.2m), new(null, 0.1m)], 0, true)],
            Cars = [new() { Required = 4 }],
        });
        Assert.Equal(-9.2, schedule.Cost, 3);
    }

    [Fact]
    public void Band_ACreditIsWorthAKilowattHourMore() =>
        // Over 10 kWh of use there is a credit of 2.00; 5 are used, 4 are needed: 5 kWh and a little cost 0.50 less 2.00.
        Assert.Equal(
            -1.5,
            Solve(new(2) { Import = [0.1, 0.1], Terms = [new BandTerm("c", Month, 10, null, 5, -2)], Cars = [new() { Required = 4 }] }).Cost,
            3);

    [Fact]
    public void Minimum_WhatItCoversIsFree() =>
        // The bill is 3.00 below its minimum: of 5 kWh at 1.00 three are free.
        Assert.Equal(
            2,
            Solve(new(2) { Import = [1, 1], Terms = [new MinimumTerm("m", Month, 20, 17)], Cars = [new() { Required = 5 }] }).Cost,
            6);

    [Fact]
    public void Solar_SurplusIsTakenFirst() =>
        // 5 kW over in the second hour at an export price of 0.05.
        Assert.Equal(
            0.25,
            Solve(new(2) { Import = [0.3, 0.3], Export = [0.05, 0.05], Solar = [0, 5], Cars = [new() { Required = 5 }] }).Cost,
            6);

    [Fact]
    public void ImportLimit_LeavesRoomBesideTheHouse()
    {
        var schedule = Solve(new(3) { Import = [1, 1, 1], House = [3, 3, 6], ImportLimit = 5, Cars = [new() { Required = 9 }] });
        // 2 kW beside the house, nothing where the house alone passes the limit.
        Assert.Equal([2.0, 2.0, 0.0], schedule.Cars[0].CurrentA);
        Assert.Equal(5, schedule.Cars[0].TargetShortfallKwh[0], 6);
    }

    [Fact]
    public void ImportLimit_FullCurrentThatPassesIt_IsNeverOn() =>
        Assert.Equal(
            6,
            Solve(new(3) { Import = [1, 1, 1], House = [3, 3, 3], ImportLimit = 5, Cars = [new() { Required = 6, Rules = RunningRules.FullCurrent }] })
                .Cars[0].TargetShortfallKwh[0],
            6);

    [Fact]
    public void SharedCircuit_TheEarlierDepartureIsServedFirst()
    {
        var schedule = Solve(new(2)
        {
            Import = [1, 1],
            CircuitA = 7,
            Cars = [new() { Required = 10 }, new() { Required = 7, LeavesAt = 1 }],
        });
        Assert.Equal(0, schedule.Cars[1].TargetShortfallKwh[0], 6);
        Assert.Equal(3, schedule.Cars[0].TargetShortfallKwh[0], 6);
        Assert.Equal([0.0, 7.0], schedule.Cars[0].CurrentA);
    }

    [Fact]
    public void SharedCircuit_EqualDepartures_GoByTheOrderOfCars()
    {
        var schedule = Solve(new(1) { Import = [1], CircuitA = 7, Cars = [new() { Required = 7 }, new() { Required = 7 }] });
        Assert.Equal(0, schedule.Cars[0].TargetShortfallKwh[0], 6);
        Assert.Equal(7, schedule.Cars[1].TargetShortfallKwh[0], 6);
    }

    [Fact]
    public void SharedCircuit_FullCurrents_TakeTurns()
    {
        var schedule = Solve(new(2)
        {
            Import = [1, 1],
            CircuitA = 10,
            Cars = [new() { Required = 7, Rules = RunningRules.FullCurrent }, new() { Required = 7, Rules = RunningRules.FullCurrent }],
        });
        Assert.Equal(14, schedule.Cost, 6);
        Assert.All(Enumerable.Range(0, 2), i => Assert.Equal(7, schedule.Cars.Sum(c => c.CurrentA[i]), 6));
    }

    [Fact]
    public void NegativePrice_EnergyIsNotBurnedToEarnIt()
    {
        // Room for 5 kWh. At 7 kW with an overhead of 1 kW: 5 / 6 h, 5.8333 kWh at the meter. The objective counts what is stored: 5 * -0.10.
        var schedule = Solve(new(3)
        {
            Import = [-0.1, -0.1, -0.1],
            Cars = [new() { Room = 5, Rules = RunningRules.FullCurrent, Constants = new() { ConversionEfficiency = 1, OverheadKw = 1, HeatingKwPerKelvin = 0 } }],
        });
        Assert.Equal(-0.5, schedule.Objective, 6);
        Assert.Equal(-0.58333333, schedule.Cost, 6);
    }

    [Fact]
    public void ExportAboveImport_ChargesWhereItLosesLeastExport()
    {
        // 5 kW over in both hours; export earns 0.50, import costs 0.10. 7 kWh in one hour: 2.50 lost and 0.20 paid; split: 3.50 lost.
        var schedule = Solve(new(2) { Import = [0.1, 0.1], Export = [0.5, 0.5], Solar = [5, 5], Cars = [new() { Required = 7 }] });
        Assert.Equal(2.7, schedule.Cost, 6);
        Assert.Equal(2.7, schedule.Bound, 4);
    }

    [Fact]
    public void Carbon_StandsBesideTheBill()
    {
        var schedule = Solve(new(2) { Import = [0.1, 0.12], Carbon = [0.1, 0.02], Cars = [new() { Required = 5 }] });
        Assert.Equal(0.7, schedule.Cost, 6);
        Assert.Equal(0.6, schedule.BillCost, 6);
    }

    [Fact]
    public void WholeAmperes_PartOfAnIntervalMakesUpTheRest()
    {
        // 7.5 kWh in two hours at 4 A or less of the demand billed anyway: 4 + 3.5.
        var schedule = Solve(new(2)
        {
            Import = [0.1, 0.1],
            Terms = [Demand(1m, 4)],
            Cars = [new() { Required = 7.5, Rules = new() { Adjustable = true, WholeAmperes = true } }],
        });
        Assert.Equal(0.75, schedule.Cost, 6);
        Assert.All(schedule.Cars[0].CurrentA, amperes => Assert.Equal(Math.Round(amperes), amperes));
    }

    [Fact]
    public void MostWindows_OneWindow_BridgesTheDearHour()
    {
        // Cheap, dear, cheap; 14 kWh at 7 kW. Two windows: 14 * 0.10. One: 7 * 0.10 + 7 * 0.50.
        var one = new HandMade(3) { Import = [0.1, 0.5, 0.1], Cars = [new() { Required = 14, Rules = new() { MostWindows = 1 } }] };
        var schedule = Solve(one);
        Assert.Equal(0.7 + 3.5, schedule.Cost, 6);
        Assert.Equal(4.2, schedule.Bound, 3);
        Assert.Equal(SolveRoute.Integers, schedule.Route);
    }

    [Fact]
    public void LeastOn_AWindowLastsUntilItHasPassed()
    {
        // Two cheap hours apart; windows of two hours at least: 7 kWh cheap and 7 kWh dear each time.
        var schedule = Solve(new(5)
        {
            Import = [0.1, 0.5, 0.6, 0.5, 0.1],
            Cars = [new() { Required = 14, Rules = new() { LeastOn = NodaTime.Duration.FromHours(2) } }],
        });
        // The last hour's window ends with the stay and may be shorter; the first hour's may not: 0.1 + 0.5 there, or 0.5 + 0.1 at the end.
        Assert.Equal((7 * 0.5) + (7 * 0.1), schedule.Cost, 6);
    }

    [Fact]
    public void SimpleNight_KeepsTheSharesRoute()
    {
        var schedule = Solve(new(3) { Import = [0.3, 0.1, 0.2], Cars = [new() { Required = 10, Rules = RunningRules.FullCurrent }] });
        Assert.Equal(SolveRoute.Shares, schedule.Route);
        // Windows begin and end on a whole second.
        Assert.Equal((7 * 0.1) + (3 * 0.2), schedule.Cost, 3);
        Assert.Equal(10, schedule.Cars[0].Steps.Sum(s => s.Hours) * 7, 2);
    }

    [Theory]
    [InlineData(0, 1.4)]
    [InlineData(-2, 18.55)]
    public void Demand_AverageUnderWayAtTheStart_CountsOnlyIfItBeganInTheHours(int hoursFrom, double cost)
    {
        // Averages of four hours begin at 16:00 and 20:00, the question at 18:00. In the charge's hours from 18:00 on only the second counts: all 7 kWh lie in the first, at 0.20.
        // In those from 16:00 on both do, over the two hours that are left: 1.75 kW in each, 17.5 + 3.5 * 0.2 + 3.5 * 0.1.
        var demand = Demand(10, 0, hours: 4) with { Hours = [HandMade.Hours(hoursFrom, 9)] };
        Assert.Equal(cost, Solve(new(4) { Import = [0.2, 0.2, 0.1, 0.1], Terms = [demand], Cars = [new() { Required = 7 }] }).Cost, 6);
    }

    private static DemandTerm Demand(decimal price, decimal measured, int hours = 1, bool sliding = false) =>
        new("demand", Month, true, [Month], NodaTime.Duration.FromHours(hours), sliding, measured, 0, measured, [new(null, price)], null);

    private static HouseholdSchedule Solve(HandMade household)
    {
        var problem = household.Build();
        var schedule = HouseholdScheduler.Solve(problem);
        Assert.Empty(RunningFindings.Of(problem, schedule));
        return schedule;
    }
}
