using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Tests.Year;

public sealed class ShortDayTests
{
    [Fact]
    public void ShortDays_SupplyThatGivesNothing_AreAllButTheFirst()
    {
        // 48 kWh at the start, 6 kWh of them the minimum: 25 kWh on 3 January, 17 of 25 on the 10th, nothing on the 50 Saturdays after.
        var cells = YearComparison.Run(SampleYear.HandWorked with
        {
            SetUps = [new SetUp("weak", Sample.Outlet with { UnitLimitA = 5 }), new SetUp("outlet", Sample.Outlet), SetUp.PublicChargingOnly("public")],
            Behaviours = [new OnArrival()],
        }).Cells;

        var days = cells[0].ShortDays;
        Assert.Equal(51, days.Count);
        Assert.Equal(new LocalDate(2026, 1, 10), days[0].Date);
        Assert.Equal(8, days[0].TripShortfallKwh, 1e-6);
        Assert.Equal(1258, days.Sum(d => d.TripShortfallKwh), 1e-6);
        Assert.Empty(cells[1].ShortDays);
        Assert.Empty(cells[2].ShortDays);
    }

    [Fact]
    public void ShortDays_ColdYear_AgreeWithReadiness()
    {
        var cells = YearComparison.Run(SampleYear.Case(SampleYear.Flat()) with { SetUps = [new SetUp("outlet", Sample.Outlet)] }).Cells;

        Assert.Contains(cells, c => c.ShortDays.Count > 0);
        Assert.All(cells, c =>
        {
            // One departure a day in this calendar.
            Assert.Equal(c.Readiness.Departures - c.Readiness.Ready, c.ShortDays.Count);
            Assert.Equal(c.Energy.TripShortfallKwh, c.ShortDays.Sum(d => d.TripShortfallKwh), 0.01 * c.Readiness.Departures);
            Assert.Equal(c.ShortDays.OrderBy(d => d.Date), c.ShortDays);
        });
    }
}
