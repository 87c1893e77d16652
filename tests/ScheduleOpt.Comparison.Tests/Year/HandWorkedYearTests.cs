using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Comparison.Tests.Year;

/// <summary>A year that can be checked with a pencil.</summary>
/// <remarks>
/// 2026 at 20 degC throughout; every Saturday (52 of them, 3 January to 26 December) a trip of 100 miles from 09:00 to 17:00.
/// Drive: 52 * 100 * 0.25 kWh = 1,300 kWh, f(20 degC) = 1. On 7.68 kW the battery gains 0.93 * 7.68 - 0.22 = 6.9224 kW, so the wall gives
/// 1,300 * 7.68 / 6.9224 = 1,442.2744 kWh and 142.2744 kWh are lost. At 0.10 per kWh and 10.00 a month: 120 + 144.22744.
/// 48 kWh at departure, 23 kWh on return: always ready, always back at 48 kWh before the next departure.
/// </remarks>
public sealed class HandWorkedYearTests
{
    private static readonly YearCase Tiny = SampleYear.HandWorked with
    {
        SetUps = [new SetUp("receptacle", Sample.Receptacle), SetUp.PublicChargingOnly("public")],
    };

    public static TheoryData<int> Behaviours { get; } = [0, 1, 2, 3];

    [Theory]
    [MemberData(nameof(Behaviours))]
    public void Run_AnyBehaviour_GivesThePencilsFigures(int behaviour)
    {
        var cell = YearComparison.Run(Tiny).Cells[behaviour];

        Assert.Equal(SampleYear.AllBehaviours[behaviour], cell.Behaviour);
        Assert.Equal(1300, cell.Energy.DriveKwh, 1e-6);
        Assert.Equal(1300, cell.Energy.HomeStoredKwh, 1e-6);
        Assert.Equal(1442.2744, cell.Energy.HomeWallKwh, 1e-4);
        Assert.Equal(142.2744, cell.Energy.HomeLossKwh, 1e-4);
        Assert.Equal(0, cell.Away.Kwh, 1e-9);
        Assert.Equal(264.22744, (double)cell.WholeHouseCost, 1e-4);
        Assert.Equal(144.22744, (double)cell.CarShare, 1e-4);
        Assert.Equal(120, cell.BillWithoutCar.Total);
        Assert.Equal((52, 1.0, 1.0), (cell.Readiness.Departures, cell.Readiness.Share, cell.Readiness.OnTargetShare));
        Assert.False(cell.EndCorrection.Applies);
    }

    [Fact]
    public void Run_PublicChargingAlone_BuysEverythingThere()
    {
        // 1,300 / 0.92 = 1,413.0435 kWh at 0.48: 678.26; the house's bill of 120 stays.
        var cell = YearComparison.Run(Tiny).Cells[4];

        Assert.Null(cell.Behaviour);
        Assert.Equal(1413.0435, cell.Away.Kwh, 1e-4);
        Assert.Equal(678.26m, cell.Away.Cost);
        Assert.Equal(0, cell.CarShare);
        Assert.Equal(798.26m, cell.WholeHouseCost);
        Assert.Equal(0, cell.Energy.HomeWallKwh);
        Assert.Null(cell.Readiness.Share);
    }

    [Fact]
    public void Run_SupplyBelowTheMinimumCurrent_BuysThatWhichTheFirstChargeLacks()
    {
        // No charging: 48 kWh at the start, 6 kWh of them the minimum; 1,300 - 42 = 1,258 kWh are missing, / 0.92 * 0.48 = 656.35.
        // The year ends 42 kWh lower; nothing was stored at home, so at 0.48 / 0.92: 21.91.
        var cell = YearComparison.Run(Tiny with
        {
            SetUps = [new SetUp("weak", Sample.Outlet with { UnitLimitA = 5 })],
            Behaviours = [new OnArrival()],
        }).Cells.Single();

        Assert.Equal(1258, cell.Energy.TripShortfallKwh, 1e-6);
        Assert.Equal(656.35m, cell.Away.Cost);
        Assert.Equal(42, cell.EndCorrection.MissingKwh, 1e-6);
        Assert.Equal(21.91m, cell.EndCorrection.Cost);

        // 25 kWh on 3 January, 17 kWh on the 10th (8 short), nothing from then on.
        Assert.Equal(1, cell.Readiness.Ready);
    }

    [Fact]
    public void Run_StopOnHalfOfTheDays_OffersHalfItsPower()
    {
        // A free-standing stop of 4 h at 7.2 kW on half of the days: 3.6 kW, of which 0.93 * 3.6 - 0.22 = 3.128 kW are stored. With no
        // charging at home the car arrives with 48 - 12.5, later with the minimum, and takes what the way home needs: 12.5 kWh to 18.5 kWh.
        var cell = YearComparison.Run(Tiny with
        {
            SetUps = [new SetUp("weak", Sample.Outlet with { UnitLimitA = 5 })],
            Behaviours = [new OnArrival()],
            Calendar = new DrivingCalendar(Tiny.Calendar.Trips.Select(WithStop)),
        }).Cells.Single();

        // 4 h * 3.128 = 12.512 kWh would do for 12.5 kWh. Week 1: 48 - 25. Week 2: 23 - 12.5 = 10.5 at the stop, + 8, home with 6.
        // From week 3 on: 12.5 kWh short on the way out, 12.5 kWh at the stop: 8 + 50 * 12.5 = 633 kWh stored, * 3.6 / 3.128 at the meter.
        Assert.Equal(633, cell.Away.StopStoredKwh, 1e-6);
        Assert.Equal(728.5166, cell.Away.StopKwh, 1e-4);
        Assert.Equal(218.55m, cell.Away.StopCost);
        Assert.Equal(50 * 12.5, cell.Energy.TripShortfallKwh, 1e-6);
    }

    private static Trip WithStop(Trip trip)
    {
        var (from, until) = (trip.Departure + Duration.FromHours(2), trip.Departure + Duration.FromHours(6));
        var stop = new TripStop(from, until) { ChargingPower = Core.Power.FromKilowatts(7.2), PricePerKwh = 0.30m, ShareOfDays = 0.5 };
        return trip with
        {
            Legs =
            [
                new TripLeg(trip.Legs[0].Distance, trip.Departure, from, trip.Departure) { Stop = stop },
                new TripLeg(trip.Legs[1].Distance, until, trip.Return, until),
            ],
        };
    }
}
