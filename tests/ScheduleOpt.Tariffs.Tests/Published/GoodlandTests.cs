using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// City of Goodland (Kansas), "Utility Rates - Example of how to Calculate", undated: goodlandks.gov/about-goodland/online-bill-pay/utility-rates/
// Residential $0.127 + $15; small commercial $0.11 + $25; large commercial $0.09 + $15 and $9.50 per kW. 1,000 kWh, 10.00 kW.
public class GoodlandTests
{
    [Theory]
    [InlineData("0.127", "15", "142.00")]
    [InlineData("0.11", "25", "135.00")]
    public void Month_1000Kwh_FlatPriceAndFixedCharge(string price, string customerCharge, string published)
    {
        var plan = Plans.Of($$"""
            customerCharges:
              - { name: Customer charge, amount: {{customerCharge}}, per: month }
            energyCharges:
              - { name: Energy, pricePerKwh: {{price}} }
            """);

        Assert.Equal(decimal.Parse(published, System.Globalization.CultureInfo.InvariantCulture), Biller.Bill(plan, Plans.OneMonth(1000)).Total);
    }

    [Fact]
    public void LargeCommercialMonth_1000KwhAnd10Kw_EnergyAndDemand()
    {
        var plan = Plans.Of("""
            customerCharges:
              - { name: Customer charge, amount: 15, per: month }
            energyCharges:
              - { name: Energy, pricePerKwh: 0.09 }
            demandCharges:
              - { name: Demand, pricePerKw: 9.50, averagingMinutes: 60 }
            """);
        var series = Plans.WithUse(Instant.FromUtc(2026, 1, 1, 0, 0), 31 * 24, [.. Enumerable.Range(0, 100).Select(h => (h * 5, 10.0))]);

        var bill = Biller.Bill(plan, series);

        Assert.Equal(105.00m, bill.Total - bill.TotalOf(BillPart.DemandCharge));
        Assert.Equal(95.00m, bill.TotalOf(BillPart.DemandCharge));
    }
}
