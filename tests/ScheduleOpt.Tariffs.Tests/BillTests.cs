using CsCheck;
using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Tests;

public class BillTests
{
    private const string Blocks = """
        energyCharges:
          - name: Energy
            limitPer: month
            blocks:
              - { upToKwh: 100, pricePerKwh: 0.10 }
              - { pricePerKwh: 0.20 }
        """;

    [Theory]
    [InlineData(99.999999, "9.9999999")]
    [InlineData(100, "10")]
    [InlineData(100.000001, "10.0000002")]
    public void Block_AtItsLimit_IncludesTheLimit(double kwh, string expected) =>
        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(Plans.Of(Blocks) with { Rounding = Rounding.None }, Plans.OneMonth(kwh)).Total);

    [Theory]
    [InlineData("halfUp", "1.01")]
    [InlineData("halfEven", "1.00")]
    public void Rounding_HalfACent_GoesWhereThePlanSays(string mode, string expected)
    {
        var plan = Plans.Of($$"""
            energyCharges:
              - { name: Energy, pricePerKwh: 0.201 }
            rounding: { each: bill, mode: {{mode}} }
            """);

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Plans.OneMonth(5)).Total);
    }

    [Fact]
    public void Rounding_NegativeHalfACent_GoesAwayFromZero()
    {
        var plan = Plans.Of("""
            energyCharges:
              - { name: Energy, pricePerKwh: -0.201 }
            """);

        Assert.Equal(-1.01m, Biller.Bill(plan, Plans.OneMonth(5)).Total);
    }

    // Hand-made: 10.00 x 3 % = 0.30; (10.00 + 0.30) x 10 % = 1.03.
    [Fact]
    public void Tax_OnATax_IsTakenInOrder()
    {
        var plan = Plans.Of("""
            energyCharges:
              - { name: Energy, pricePerKwh: 0.10 }
            taxes:
              - { name: Fee, percent: 3, on: { parts: [energyCharge] } }
              - { name: Tax, percent: 10, on: { parts: [energyCharge], taxes: [Fee] } }
            """);

        Assert.Equal([10.00m, 0.30m, 1.03m], Biller.Bill(plan, Plans.OneMonth(100)).Periods[0].Lines.Select(l => l.Amount));
    }

    [Theory]
    [InlineData(0, "20.00")]
    [InlineData(100, "20.00")]
    [InlineData(151, "20.10")]
    public void MinimumBill_BelowAndAbove_TopsUpTheCountedParts(double kwh, string expected)
    {
        var plan = Plans.Of("""
            customerCharges:
              - { name: Basic, amount: 5, per: month }
            energyCharges:
              - { name: Energy, pricePerKwh: 0.10 }
            minimumBill: { amount: 20, per: month, counts: [customerCharge, energyCharge] }
            """);

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Plans.OneMonth(kwh)).Total);
    }

    // 10 of January's 31 days.
    [Theory]
    [InlineData("none", "30.00")]
    [InlineData("thirtyDays", "10.00")]
    [InlineData("averageMonth", "9.86")]
    [InlineData("daysInMonth", "9.68")]
    public void CustomerCharge_PartialBillingPeriod_IsProratedByTheStatedRule(string rule, string expected)
    {
        var plan = Plans.Of($$"""
            customerCharges:
              - { name: Basic, amount: 30, per: month }
            energyCharges:
              - { name: Energy, pricePerKwh: 0 }
            proration: { month: {{rule}} }
            """);

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Plans.Even(Instant.FromUtc(2026, 1, 1, 0, 0), Duration.FromDays(1), 10, 0)).Total);
    }

    [Theory]
    [InlineData(25, "25.00")]
    [InlineData(26, "30.00")]
    [InlineData(35, "30.00")]
    [InlineData(36, "36.00")]
    public void CustomerCharge_LengthOfAnOrdinaryPeriod_CountsAsAWholeMonth(int days, string expected)
    {
        var plan = Plans.Of("""
            customerCharges:
              - { name: Basic, amount: 30, per: month }
            energyCharges:
              - { name: Energy, pricePerKwh: 0 }
            proration: { month: thirtyDays, wholeMonthDays: { from: 26, to: 35 } }
            """);
        var series = Plans.Even(Instant.FromUtc(2026, 1, 1, 0, 0), Duration.FromDays(1), days, 0);

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, series, readingDates: []).Total);
    }

    // April: 15 days of winter, 15 of summer; limits 100 x 15/30 each. 80 kWh in winter: 50 at 0.10 and 30 at 0.20; 40 in summer: at 0.30.
    [Fact]
    public void Blocks_SeasonChangesInsideTheMonth_LimitsFollowTheDays()
    {
        var plan = Plans.Of("""
            seasons:
              - { name: winter, ranges: [ { from: 10-16, to: 04-15 } ] }
              - { name: summer, ranges: [ { from: 04-16, to: 10-15 } ] }
            energyCharges:
              - { name: Winter, seasons: [winter], limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: 0.10 }, { pricePerKwh: 0.20 } ] }
              - { name: Summer, seasons: [summer], limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: 0.30 }, { pricePerKwh: 0.40 } ] }
            """);
        var series = Plans.WithUse(Instant.FromUtc(2026, 4, 1, 0, 0), 30 * 24, (0, 80), (15 * 24, 40));

        Assert.Equal([5.00m, 6.00m, 12.00m], Biller.Bill(plan, series).Periods[0].Lines.Select(l => l.Amount));
    }

    // Shared: 300 kWh, first 100 split 1:2 over the periods as the use is. On-peak 33.333 at 0.30 + 66.667 at 0.40; off-peak 66.667 at 0.10 + 133.333 at 0.20.
    [Fact]
    public void Blocks_SharedByPeriodsWithTheirOwnPrices_AreSplitInProportion()
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
                  - { pricePerKwh: { on-peak: 0.40, off-peak: 0.20 } }
            """);
        var series = Plans.WithUse(Instant.FromUtc(2026, 1, 1, 0, 0), 31 * 24, (12, 100), (0, 200));

        Assert.Equal([10.00m, 6.67m, 26.67m, 26.67m], Biller.Bill(plan, series).Periods[0].Lines.Select(l => l.Amount));
    }

    [Fact]
    public void Blocks_OneChargeForEachPeriod_HaveTheirOwnAllowances()
    {
        var plan = Plans.Of("""
            periods: [on-peak, off-peak]
            windows:
              - { period: on-peak, from: 12:00, to: 20:00 }
            defaultPeriod: off-peak
            energyCharges:
              - { name: On, periods: [on-peak], limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: 0.30 }, { pricePerKwh: 0.40 } ] }
              - { name: Off, periods: [off-peak], limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: 0.10 }, { pricePerKwh: 0.20 } ] }
            """);
        var series = Plans.WithUse(Instant.FromUtc(2026, 1, 1, 0, 0), 31 * 24, (12, 100), (0, 200));

        Assert.Equal([30.00m, 10.00m, 20.00m], Biller.Bill(plan, series).Periods[0].Lines.Select(l => l.Amount));
    }

    [Fact]
    public void LeapDay_HourlyYear2028_IsBilledInFebruary()
    {
        var series = Plans.Even(Plans.Midnight("America/Chicago", 2028, 1, 1), Duration.FromHours(1), 366 * 24, 366 * 24);

        var bill = Biller.Bill(RatePlanLibrary.Find("sample-electric-all-electric-home")!, series);

        Assert.Equal(12, bill.Periods.Count);
        Assert.Equal(29, bill.Periods[1].Days);
        Assert.Equal(29 * 24, bill.Periods[1].EnergyKwh);
    }

    // An hour of 3 kWh from 06:00 to 07:00 UTC with a border at 06:20: 1 kWh and 2 kWh.
    [Fact]
    public void Interval_CutByABorder_IsSplitByTime()
    {
        var plan = Plans.Of("""
            periods: [early, late]
            windows:
              - { period: early, from: 00:00, to: 06:20 }
            defaultPeriod: late
            energyCharges:
              - { name: Early, periods: [early], pricePerKwh: 1 }
              - { name: Late, periods: [late], pricePerKwh: 10 }
            """);

        Assert.Equal([1m, 20m], Biller.Bill(plan, Plans.WithUse(Instant.FromUtc(2026, 1, 1, 0, 0), 24, (6, 3))).Periods[0].Lines.Select(l => l.Amount));
    }

    [Fact]
    public void ReadingDates_InsideTheSeries_CutTheBillingPeriods()
    {
        var series = Plans.Even(Instant.FromUtc(2026, 1, 1, 0, 0), Duration.FromHours(1), 90 * 24, 90);

        var bill = Biller.Bill(Plans.Of(Blocks), series, [new(2026, 3, 3), new(2026, 2, 1), new(2025, 1, 1)]);

        Assert.Equal([31m, 30m, 29m], bill.Periods.Select(p => p.Days));
    }

    [Fact]
    public void Series_OutsideTheEffectiveDates_IsBilledWithAWarning()
    {
        var plan = RatePlanLibrary.Find("example-power-standard")!;

        Assert.Single(Biller.Bill(plan, Plans.Even(Instant.FromUtc(2025, 12, 1, 6, 0), Duration.FromHours(1), 24, 24)).Warnings);
        Assert.Empty(Biller.Bill(plan, Plans.Even(Instant.FromUtc(2026, 1, 1, 6, 0), Duration.FromHours(1), 24, 24)).Warnings);
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(1e7)]
    public void MeteredSeries_ImpossibleEnergy_IsRefused(double kwh) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MeteredSeries.FromKilowattHours(Instant.FromUtc(2026, 1, 1, 0, 0), Duration.FromHours(1), [kwh]));

    // Without blocks, fixed charges, minimum and rounding a bill is linear: bill(A + B) = bill(A) + bill(B) to the last digit.
    [Fact]
    public void Bill_OfASum_IsTheSumOfTheBills()
    {
        var plan = RatePlanLibrary.Find("example-power-three-seasons")! with { CustomerCharges = [], Rounding = Rounding.None };
        var start = Plans.Midnight("America/Chicago", 2026, 3, 6);
        var load = Gen.Double[0, 20].Array[24 * 14].Select(kwh => MeteredSeries.FromKilowattHours(start, Duration.FromHours(1), kwh));

        Gen.Select(load, load).Sample((a, b) => Biller.Bill(plan, a.Plus(b)).Total == Biller.Bill(plan, a).Total + Biller.Bill(plan, b).Total, iter: 50);
    }

    // Every kWh of the series is on exactly one energy line, for any start and any interval.
    [Fact]
    public void Bill_AnySeries_EnergyLinesAddUpToTheSeries()
    {
        var cases = Gen.Select(Gen.Int[0, 40_000_000], Gen.Int[1, 90], Gen.Int[0, RatePlanLibrary.All.Count - 1], Gen.Double[0, 9].Array[200, 400]);

        cases.Sample(
            (minute, interval, plan, kwh) =>
            {
                var start = Instant.FromUtc(2000, 1, 1, 0, 0) + Duration.FromMinutes(minute % 20_000_000);
                var series = MeteredSeries.FromKilowattHours(start, Duration.FromMinutes(interval), kwh);
                var billed = RatePlanLibrary.All[plan];
                var bill = Biller.Bill(billed, series, input: Plans.InputFor(series));
                var factors = billed.EnergyCharges.ToDictionary(c => c.Name, c => c.LossFactor);
                var layers = billed.EnergyCharges.Select(c => c.Layer).Distinct().Count();
                var lines = bill.Periods.SelectMany(p => p.Lines).ToArray();
                return Math.Abs(lines.Where(l => l.Part == BillPart.EnergyCharge).Sum(l => l.Quantity / factors[l.Charge]) - (layers * series.TotalKilowattHours)) < 1e-8m
                    && lines.Sum(l => l.Amount) == bill.Total
                    && bill.TotalsByPart().Values.Sum() == bill.Total;
            },
            iter: 200);
    }

    [Fact]
    public void MinimumBill_RoundedByLine_IsRoundedOnceWhenTheCountedLinesAreOff()
    {
        // 140.725 less 74.21 is 66.515, half even 66.52; 140.72 less 74.21 would be 66.51.
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 7.421 } ]
            minimumBill: { amount: 140.725, per: billingPeriod, counts: [ energyCharge ] }
            rounding: { each: line, mode: halfEven }
            """);

        var line = Assert.Single(Biller.Bill(plan, Plans.OneMonth(10)).Periods.Single().Lines, l => l.Part == BillPart.MinimumBill);

        Assert.Equal(66.52m, line.Amount);
    }
}
