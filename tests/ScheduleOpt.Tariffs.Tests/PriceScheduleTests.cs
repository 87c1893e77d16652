using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Tests;

public class PriceScheduleTests
{
    private const string Zone = "America/Chicago";

    [Fact]
    public void Price_BlocksSharedByPeriodsWithTheirOwnPrices_IsTheSlopeOfTheBill()
    {
        var plan = Plans.Of("""
            periods: [on-peak, off-peak]
            windows:
              - { period: on-peak, from: 12:00, to: 20:00 }
            defaultPeriod: off-peak
            energyCharges:
              - name: Energy
                limitPer: month
                blocks:
                  - { upToKwh: 100, pricePerKwh: { on-peak: 0.30, off-peak: 0.10 } }
                  - { upToKwh: 250, pricePerKwh: { on-peak: 0.60, off-peak: 0.15 } }
                  - { pricePerKwh: { on-peak: 0.90, off-peak: 0.50 } }
            """) with
        {
            Rounding = Rounding.None,
        };
        var start = Instant.FromUtc(2026, 1, 1, 0, 0);
        var load = Plans.WithUse(start, 31 * 24, (12, 120), (0, 200));
        var prices = PriceScheduleBuilder.Build(plan, load.Start, load.End, load);
        var bill = Biller.Bill(plan, load).Total;

        foreach (var hour in new[] { 3, 15 })
        {
            // The split is not linear in the use: a small step, and a tolerance that its square explains.
            var more = MeteredSeries.FromKilowattHours(start, Duration.FromHours(1), Only(31 * 24, hour, 0.001));
            var slope = (Biller.Bill(plan, load.Plus(more)).Total - bill) / 0.001m;

            Assert.Equal(0, slope - prices.At(start + Duration.FromHours(hour)).ImportPerKwh, 5);
        }
    }

    // Hand-made: first block 0.10 to 100 kWh, then 0.20; adjustment 0.01; fee 10 % on energy alone; tax 5 % on energy, adjustment and fee.
    // Energy 0.10 x (1 + 0.10 + 0.05 + 0.005) + 0.01 x 1.05 = 0.1155 + 0.0105; second block 0.231 + 0.0105.
    [Theory]
    [InlineData(0, "0.126")]
    [InlineData(99.9, "0.126")]
    [InlineData(100, "0.2415")]
    [InlineData(250, "0.2415")]
    public void Price_WithAdjustmentAndTaxes_IsThatOfTheBlockReached(double usedSoFar, string expected)
    {
        var plan = Plans.Of("""
            energyCharges:
              - { name: Energy, limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: 0.10 }, { pricePerKwh: 0.20 } ] }
            adjustments:
              - { name: Adjustment, pricePerKwh: 0.01 }
            taxes:
              - { name: Fee, percent: 10, on: { parts: [energyCharge] } }
              - { name: Tax, percent: 5, on: { parts: [energyCharge, adjustment], taxes: [Fee] } }
            """);
        var from = Instant.FromUtc(2026, 1, 20, 5, 0);

        var prices = PriceScheduleBuilder.Build(plan, from, from + Duration.FromDays(2), usedSoFar: Energy.FromKilowattHours(usedSoFar));

        Assert.Equal(decimal.Parse(expected, null), Assert.Single(prices.Spans).ImportPerKwh);
        Assert.Contains("block", Assert.Single(prices.Warnings), StringComparison.Ordinal);
    }

    // Use so far belongs to January alone: February begins in the first block again.
    [Fact]
    public void Price_OverTheEndOfTheMonth_BeginsTheBlocksAnew()
    {
        var plan = Plans.Of("""
            energyCharges:
              - { name: Energy, limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: 0.10 }, { pricePerKwh: 0.20 } ] }
            """);
        var from = Instant.FromUtc(2026, 1, 30, 0, 0);

        var prices = PriceScheduleBuilder.Build(plan, from, from + Duration.FromDays(4), usedSoFar: Energy.FromKilowattHours(300));

        Assert.Equal([(from, 0.20m), (Instant.FromUtc(2026, 2, 1, 0, 0), 0.10m)], prices.Spans.Select(s => (s.Start, s.ImportPerKwh)));
    }

    [Fact]
    public void Price_PlanWithDemandAndMinimum_WarnsOfBoth()
    {
        var plan = Plans.Of("""
            energyCharges:
              - { name: Energy, pricePerKwh: 0.10 }
            demandCharges:
              - { name: Demand, pricePerKw: 9.50, averagingMinutes: 60 }
            minimumBill: { amount: 20, per: month, counts: [energyCharge] }
            """);
        var from = Instant.FromUtc(2026, 1, 30, 0, 0);

        Assert.Equal(2, PriceScheduleBuilder.Build(plan, from, from + Duration.FromDays(1)).Warnings.Count);
    }

    // Across the edge of a rising or a falling block the difference lies between what the prices on both sides make of it.
    [Theory]
    [InlineData("0.10", "0.20")]
    [InlineData("0.20", "0.10")]
    public void Price_AcrossABlockEdge_BoundsTheDifferenceOfTheBills(string first, string second)
    {
        var plan = Plans.Of($$"""
            energyCharges:
              - { name: Energy, limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: {{first}} }, { pricePerKwh: {{second}} } ] }
            """) with
        {
            Rounding = Rounding.None,
        };
        var start = Instant.FromUtc(2026, 1, 1, 0, 0);
        foreach (var below in new[] { 0.001, 1.0, 2.0, 3.999 })
        {
            var load = Plans.WithUse(start, 31 * 24, (5, 100 - below));
            var more = load.Plus(Plans.WithUse(start, 31 * 24, (400, 4)));
            var difference = Biller.Bill(plan, more).Total - Biller.Bill(plan, load).Total;
            var left = 4 * PriceScheduleBuilder.Build(plan, load.Start, load.End, load).Spans[0].ImportPerKwh;
            var right = 4 * PriceScheduleBuilder.Build(plan, load.Start, load.End, more).Spans[0].ImportPerKwh;

            Assert.InRange(difference, Math.Min(left, right), Math.Max(left, right));
            Assert.Equal(0.40m, Math.Min(left, right));
            Assert.Equal(0.80m, Math.Max(left, right));
        }
    }

    // Friday 2 January 2026, 16:00 to Saturday 08:00: on-peak to 21:00, off-peak to midnight, super off-peak to 05:00, off-peak.
    [Fact]
    public void Price_OfTheCarOwnerPlan_ChangesAtItsWindows()
    {
        var from = Plans.Midnight(Zone, 2026, 1, 2) + Duration.FromHours(16);

        var prices = PriceScheduleBuilder.Build(RatePlanLibrary.Find("example-power-car-owner")!, from, from + Duration.FromHours(16));

        Assert.Equal([0, 5, 8, 13], prices.Spans.Select(s => (int)(s.Start - from).TotalHours));
        Assert.Equal(["on-peak", "off-peak", "super-off-peak", "off-peak"], prices.Spans.Select(s => s.Period));
        Assert.Equal((0.0240m + 0.0045m) * 1.025m, prices.Spans[2].ImportPerKwh);
    }

    private static double[] Only(int hours, int hour, double kwh)
    {
        var all = new double[hours];
        all[hour] = kwh;
        return all;
    }
}
