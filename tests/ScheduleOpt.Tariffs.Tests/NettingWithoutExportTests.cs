using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// A bill does not depend on whether an export of nothing is given.
public class NettingWithoutExportTests
{
    // 4 kWh in the quarter hour before the peak, nothing after: netted over the hour, half of it lies in the peak. 2 x 0.10 + 2 x 0.50.
    [Theory]
    [InlineData("kind: netBilling, nettingMinutes: 60, prices: [ { name: Export, pricePerKwh: 0.05 } ]")]
    [InlineData("kind: netMetering, nettingMinutes: 60")]
    public void Netting_WithoutExport_IsThatOfZeros(string export)
    {
        var plan = Plans.Of($$"""
            periods: [on, off]
            windows: [ { period: on, from: 12:30, to: 20:00 } ]
            defaultPeriod: off
            energyCharges: [ { name: Off, periods: [off], pricePerKwh: 0.10 }, { name: On, periods: [on], pricePerKwh: 0.50 } ]
            export: { {{export}} }
            """);
        var use = MeteredSeries.FromKilowattHours(Instant.FromUtc(2026, 1, 1, 12, 0), Duration.FromMinutes(15), [0, 4, 0, 0]);
        var zeros = MeteredSeries.FromKilowattHours(use.Start, use.Interval, [0, 0, 0, 0]);

        Assert.Equal(1.20m, Biller.Bill(plan, use).Total);
        Assert.Equal(1.20m, Biller.Bill(plan, use, input: new() { Export = zeros }).Total);
    }
}
