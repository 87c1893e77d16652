using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Tests.Year;

/// <summary>Nothing is lost between the problem's intervals, the meter and the cell.</summary>
public sealed class YearBalanceTests
{
    [Theory]
    [InlineData("America/Chicago", 2026, 15, 8760)]
    [InlineData("America/Chicago", 2028, 15, 8784)]
    [InlineData("America/Chicago", 2026, 60, 8760)]
    [InlineData("Australia/Sydney", 2026, 15, 8760)]
    [InlineData("Asia/Kathmandu", 2026, 60, 8760)]
    [InlineData("Australia/Lord_Howe", 2026, 30, 8760)]
    public void HomeKwh_AnyZoneAndYear_AddsUpToTheWallEnergy(string zoneId, int year, int minutes, int hours)
    {
        var zone = new HouseholdZone(DateTimeZoneProviders.Tzdb[zoneId]);
        var frame = new YearFrame(SampleYear.Case(SampleYear.Flat()) with
        {
            Zone = zone, Year = year, GridMinutes = minutes, Calendar = SampleYear.Commuting(year, zone),
        });
        var problem = frame.Problem(new SetUp("receptacle", Sample.Receptacle), null);

        var replay = BehaviourSimulator.Run(problem, new OnArrival()).Replay;
        var metered = MeterGrid.HomeKwh(problem, replay.WallKwh, frame.Span);

        Assert.Equal(hours * 60 / minutes, metered.Length);
        Assert.Equal(hours, problem.Hours.Sum(), 1e-6);
        Assert.Equal(frame.Span.End, frame.House.End);
        Assert.Equal(replay.WallKwh.Sum(), metered.Sum(), 1e-6);

        // Each metering interval holds no more than full power can give.
        Assert.True(metered.Max() <= (7.68 * minutes / 60) + 1e-9);
    }

    [Fact]
    public void Run_LeastCostOverTheYear_KeepsTheEnergyBalance()
    {
        // Case 53: wall * eta - (overhead + heating) * hours on = change of stored energy + driving - shortfall.
        var (frame, prices) = Priced(SampleYear.TimeOfUse());
        foreach (var supply in new[] { Sample.Outlet, Sample.Hardwired })
        {
            var problem = frame.Problem(new SetUp("any", supply), prices);
            var replay = TaperMakeUp.Run(problem, Scheduler.Solve(problem, SolverChoice.Direct));

            var constants = problem.Constants;
            var gained = 0.0;
            for (var i = 0; i < problem.Count; i++)
            {
                gained += (replay.WallKwh[i] * constants.ConversionEfficiency)
                    - ((constants.OverheadKw + ChargingModel.HeatingKw(problem.TemperatureC[i], constants)) * replay.OnHours[i]);
                Assert.False(replay.OnHours[i] > 0 && problem.NetKw[i] <= 0);
            }

            Assert.Equal(
                replay.StoredKwh[^1] - replay.StoredKwh[0] + problem.DriveKwh.Sum() - replay.TripShortfallKwh.Sum(), gained, 1e-6);
        }
    }

    [Fact]
    public void Run_EveryCell_BalancesStoredDrivenAndMissed()
    {
        foreach (var cell in YearComparison.Run(SampleYear.Case(SampleYear.Flat(), SampleYear.TimeOfUse())).Cells)
        {
            Assert.Equal(
                cell.Energy.DriveKwh - cell.Energy.TripShortfallKwh,
                cell.Energy.HomeStoredKwh + cell.Away.StopStoredKwh + cell.EndCorrection.MissingKwh,
                1e-6);
            Assert.InRange(cell.Energy.HomeStoredKwh / cell.Energy.HomeWallKwh, 0.5, 0.93);

            // The bills see what the wall gave; each of the 35,040 intervals is rounded to a millionth of a kWh.
            var billed = cell.BillWithCar.Periods.Sum(p => p.EnergyKwh) - cell.BillWithoutCar.Periods.Sum(p => p.EnergyKwh);
            Assert.Equal(cell.Energy.HomeWallKwh, (double)billed, 0.0176);
        }
    }

    [Fact]
    public void Run_FlatPlan_CarShareIsWallEnergyTimesThePriceWhateverTheHouseUses()
    {
        var with = YearComparison.Run(SampleYear.Case(SampleYear.Flat(0.12m)));
        var without = YearComparison.Run(SampleYear.Case(SampleYear.Flat(0.12m)) with { HouseLoad = null });

        foreach (var (a, b) in with.Cells.Zip(without.Cells))
        {
            Assert.Equal(a.CarShare, b.CarShare);
            Assert.Equal(0.12 * a.Energy.HomeWallKwh, (double)a.CarShare, 0.0022);
            Assert.True(a.WholeHouseCost > b.WholeHouseCost);
            Assert.Equal(a.WholeHouseCost - a.BillWithoutCar.Total, a.CarCost);
        }
    }

    [Fact]
    public void Run_SameCaseTwice_GivesTheSameCells()
    {
        var question = SampleYear.Case(SampleYear.Flat(), SampleYear.TimeOfUse(), SampleYear.Blocks());

        var first = YearComparison.Run(question).Cells;
        var second = YearComparison.Run(question).Cells;

        Assert.Equal(first.Select(Figures), second.Select(Figures));
        Assert.Equal(3 * 3 * 4, first.Count);
    }

    private static (decimal, double, int?, int) Figures(YearCell cell) =>
        (cell.WholeHouseCost, cell.Energy.HomeWallKwh, cell.Readiness.Ready, cell.Rank);

    private static (YearFrame Frame, Core.Pricing.PriceSchedule Prices) Priced(RatePlan plan)
    {
        var frame = new YearFrame(SampleYear.Case(plan));
        return (frame, PlanYear.Of(frame, plan).Prices);
    }
}
