using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Tariffs.Tests;

// A block with a price for each period names those that its charge covers.
public class BlockPriceByPeriodTests
{
    private const string Body = """
        timeZone: UTC
        customerCharges: []
        rounding: { each: line, mode: halfUp }
        proration: { month: none }
        periods: [on, mid, off]
        windows: [ { period: on, from: 12:00, to: 20:00 }, { period: mid, from: 20:00, to: 22:00 } ]
        defaultPeriod: off
        energyCharges:
          - { name: Mid, periods: [mid], pricePerKwh: 0.15 }
          - name: Shared
            periods: [on, off]
            limitPer: month
            fill: inTimeOrder

        """;

    // 40 kWh off, then 80 on: 40 off and 60 on in the first block, 20 on in the second.
    [Fact]
    public void Blocks_PricesOfTheCoveredPeriodsOnly_AreEnough()
    {
        var read = RatePlanDocument.Read(
            Plans.Head + Body + "    blocks: [ { upToKwh: 100, pricePerKwh: { on: 0.30, off: 0.10 } }, { pricePerKwh: { on: 0.40, off: 0.20 } } ]\n", "test");

        var bill = Biller.Bill(read.Value, Plans.WithUse(NodaTime.Instant.FromUtc(2026, 1, 1, 0, 0), 31 * 24, (0, 40), (13, 80)));
        Assert.Equal([18.00m, 4.00m, 8.00m], bill.Periods.Single().Lines.Select(l => l.Amount));
    }

    [Fact]
    public void Blocks_WithoutThePriceOfACoveredPeriod_AreRefused()
    {
        var read = RatePlanDocument.Read(Plans.Head + Body + "    blocks: [ { upToKwh: 100, pricePerKwh: { on: 0.30 } }, { pricePerKwh: 0.40 } ]\n", "test");

        var fault = Assert.Single(read.Faults);
        Assert.Equal("#/energyCharges/1/blocks/0/pricePerKwh", fault.Pointer);
        Assert.Equal("none for off", fault.Value);
    }
}
