using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// Park Electric Cooperative, "Net-metering", parkelectric.coop/content/net-metering: base charge 32.00 with a net meter, 23.00 without; 1,000 kWh used, 420 kWh
// generated, net 580: 81.88 against 109.00, saving 27.12. The price is derived: (109 - 23) / 1000 = 0.086. Export counts one to one; settled yearly.
public class NetMeteringTests
{
    [Fact]
    public void ParkElectric_420KwhExported_81Dollars88()
    {
        var net = Plans.Of("""
            customerCharges: [ { name: Base charge, amount: 32.00, per: month } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0.086 } ]
            export: { kind: netMetering, settlementMonth: 12 }
            """);
        var plain = Plans.Of("""
            customerCharges: [ { name: Base charge, amount: 23.00, per: month } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0.086 } ]
            """);
        // Bought at night, sold at noon: metered apart, netted over the month.
        var used = Plans.WithUse(Instant.FromUtc(2026, 6, 1, 0, 0), 30 * 24, (2, 600), (300, 400));
        var sold = Plans.WithUse(Instant.FromUtc(2026, 6, 1, 0, 0), 30 * 24, (12, 200), (400, 220));

        var bill = Biller.Bill(net, used, input: new() { Export = sold });

        Assert.Equal(81.88m, bill.Total);
        Assert.Equal(580m, bill.Periods.Single().EnergyKwh);
        Assert.Equal(27.12m, Biller.Bill(plain, used).Total - bill.Total);
    }

    // Benton PUD, "Residential Demand Charge FAQs", November 2023, bentonpud.org/ResidentialDemandCharge/FAQs: 8 November to 8 December, 5 kW in the peak hours x 1.00 =
    // 5.00; demand is rounded to the whole kW. Its peak hours are not in the figure: 6 to 10 here.
    [Theory]
    [InlineData(5.0)]
    [InlineData(4.6)]
    [InlineData(5.4)]
    public void BentonDemand_WholeKw_5Dollars(double kw)
    {
        var plan = Plans.Of("""
            periods: [peak, off]
            windows: [ { period: peak, from: 06:00, to: 10:00 } ]
            defaultPeriod: off
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges: [ { name: Demand, periods: [peak], pricePerKw: 1.00, averagingMinutes: 60, kwDecimals: 0 } ]
            """);
        var series = Plans.WithUse(Instant.FromUtc(2023, 11, 8, 0, 0), 30 * 24, (30, kw), (40, 9));

        Assert.Equal(5.00m, Biller.Bill(plan, series, readingDates: []).Total);
    }
}
