using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// Oracle, Utilities Rate Cloud Service user guide 23A, "Service Quantity Proration": 1 April to 15 May (45 days), 100 kWh, price change on 16 April:
// 33 kWh at the old price and 67 kWh at the new one (whole kWh in the source). The year is not printed, nor are the prices.
public class PriceChangeInsideABillTests
{
    [Fact]
    public void FortyFiveDays_PriceChangesOnThe16thDay_UseIsSplitByDays()
    {
        var plan = Plans.Of("""
            energyCharges:
              - { name: Old, until: 2025-04-15, pricePerKwh: 0.10 }
              - { name: New, from: 2025-04-16, pricePerKwh: 0.12 }
            """);

        var bill = Biller.Bill(plan, Plans.Even(Instant.FromUtc(2025, 4, 1, 0, 0), Duration.FromHours(1), 45 * 24, 100), readingDates: []);

        Assert.Equal([33m, 67m], bill.Periods.Single().Lines.Select(l => decimal.Round(l.Quantity)));
    }
}
