using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// Hydro-Quebec, "Rate D" (hydroquebec.com/residential/customer-space/rates/rate-d.html) and "Reading your bill: bimonthly"
// (.../rate-d/bimonthly-bill-part3-overlay/), about 2012 to 2025: the first 30 (older) or 40 (now) kWh per day times the days of the billing period,
// pooled over all of it. Prices as on the page effective 1 April 2025; only quantities are printed.
public class HydroQuebecRateDTests
{
    [Fact]
    public void SixtyTwoDays_FortyKwhADay_FirstBlockIs2480Kwh() =>
        Assert.Equal([2480m, 1m], Quantities(40, 62, 2481));

    [Fact]
    public void SixtyThreeDays_ThirtyKwhADayAnd5000Kwh_BlocksAre1890And3110Kwh() =>
        Assert.Equal([1890m, 3110m], Quantities(30, 63, 5000));

    // All the use on the first day: the allowance is a pool and not a daily cap.
    private static IEnumerable<decimal> Quantities(int perDay, int days, double kwh)
    {
        var plan = Plans.Of($$"""
            timeZone: America/Toronto
            energyCharges:
              - name: Energy
                limitPer: day
                blocks:
                  - { upToKwh: {{perDay}}, pricePerKwh: 0.06905 }
                  - { pricePerKwh: 0.10652 }
            """);
        var series = Plans.WithUse(Plans.Midnight("America/Toronto", 2025, 5, 3), days * 24, (10, kwh));
        return Biller.Bill(plan, series, readingDates: []).Periods.Single().Lines.Select(l => l.Quantity);
    }
}
