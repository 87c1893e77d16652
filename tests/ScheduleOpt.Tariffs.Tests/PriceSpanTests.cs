using NodaTime;
using ScheduleOpt.Core;

namespace ScheduleOpt.Tariffs.Tests;

// Which billing periods, which stretch of the expected use and which prices of a series a price schedule is made from.
public class PriceSpanTests
{
    private const string Blocks = "energyCharges: [ { name: Energy, limitPer: billingPeriod, blocks: [ { upToKwh: 100, pricePerKwh: 0.10 }, { pricePerKwh: 0.20 } ] } ]";
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);

    [Fact]
    public void Build_WithoutTimeOrWithNegativeUse_IsRefused()
    {
        var plan = Plans.Of(Blocks);

        Assert.Throws<ArgumentOutOfRangeException>(() => PriceScheduleBuilder.Build(plan, Start, Start));
        Assert.Throws<ArgumentOutOfRangeException>(() => PriceScheduleBuilder.Build(plan, Start, Start - Duration.FromSeconds(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(1), usedSoFar: Energy.FromKilowattHours(-1)));
    }

    // Readings on 10 January, 10 February and 10 March: the billing period that holds 20 January is the one from the 10th.
    [Theory]
    [InlineData("2026-01-10 2026-02-10 2026-03-10", 20, 1, "01-10")]
    [InlineData("2026-01-10 2026-02-10 2026-03-10", 10, 1, "01-10")]
    [InlineData("2026-01-10 2026-02-10 2026-03-10", 39, 1, "01-10")]
    [InlineData("2026-01-10 2026-02-10 2026-03-10", 39, 3, "01-10 02-10")]
    [InlineData("2026-01-10 2026-02-10 2026-03-10", 20, 60, "01-10 02-10 03-10")]
    [InlineData("2026-02-10", 20, 1, "01-01")]
    [InlineData("2026-01-10", 20, 1, "01-10")]
    [InlineData("2015-01-10 2037-01-10", 20, 1, "01-01")]
    [InlineData("", 20, 30, "01-01 02-01")]
    public void Build_ByReadingDates_TakesWholeBillingPeriods(string dates, int fromDay, int days, string expected)
    {
        LocalDate[]? readings = dates.Length == 0 ? null : [.. dates.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(d => NodaTime.Text.LocalDatePattern.Iso.Parse(d).Value)];
        var from = Start + Duration.FromDays(fromDay - 1);
        var prices = PriceScheduleBuilder.Build(Plans.Of(Blocks), from, from + Duration.FromDays(days), readingDates: readings);

        Assert.Equal(expected, string.Join(' ', prices.Edges.Select(e => e.BillingPeriodStart.ToString("MM-dd", null))));
        Assert.Equal((from, from + Duration.FromDays(days)), (prices.Start, prices.End));
    }

    // A reading ten years away bounds a billing period, one a day further is a slip.
    [Theory]
    [InlineData("2016-01-20", "2016-01-20")]
    [InlineData("2016-01-19", "2026-01-01")]
    public void Build_ReadingLongAgo_IsTakenUpToTenYears(string reading, string expected)
    {
        var from = Start + Duration.FromDays(19);
        var prices = PriceScheduleBuilder.Build(Plans.Of(Blocks), from, from + Duration.FromDays(1), readingDates: [NodaTime.Text.LocalDatePattern.Iso.Parse(reading).Value]);

        Assert.Equal(expected, prices.Edges.Single().BillingPeriodStart.ToString("uuuu-MM-dd", null));
    }

    [Theory]
    [InlineData("2036-01-20", true)]
    [InlineData("2036-01-21", false)]
    public void Build_ReadingFarAhead_IsTakenUpToTenYears(string reading, bool isTaken)
    {
        var from = Start + Duration.FromDays(19);
        var term = PriceScheduleBuilder.Build(Plans.Of(Blocks), from, from + Duration.FromDays(1), readingDates: [NodaTime.Text.LocalDatePattern.Iso.Parse(reading).Value]).Terms.Single();

        Assert.Equal(isTaken ? Instant.FromUtc(2036, 1, 20, 0, 0) : Instant.FromUtc(2026, 2, 1, 0, 0), term.BillingPeriod.End);
    }

    // 5 kWh an hour: before the billing period, in part before it, after it.
    [Theory]
    [InlineData(-48, 24, 0)]
    [InlineData(-24, 24, 0)]
    [InlineData(-12, 24, 60)]
    [InlineData(0, 10, 50)]
    [InlineData(732, 24, 60)]
    [InlineData(744, 24, 0)]
    [InlineData(-24, 1000, 3720)]
    public void Build_UseBesideTheBillingPeriod_CountsWhereItLiesInside(int fromHour, int hours, int kwh)
    {
        var use = Plans.Even(Start + Duration.FromHours(fromHour), Duration.FromHours(1), hours, 5 * hours);
        var term = (Core.Pricing.BlockTerm)PriceScheduleBuilder.Build(Plans.Of(Blocks), Start, Start + Duration.FromDays(1), use).Terms.Single();

        Assert.Equal(kwh, term.UsedKwh);
    }

    // Export beside use that begins before the billing period is cut like it: 12 kWh of the 24 are netted against 12 of the use's 24.
    [Fact]
    public void Build_ExportBesideTheBillingPeriod_IsCutLikeTheUse()
    {
        var plan = Plans.Of(Blocks + "\nexport: { kind: netMetering }");
        var from = Start - Duration.FromHours(12);
        var term = (Core.Pricing.BlockTerm)PriceScheduleBuilder.Build(
            plan, Start, Start + Duration.FromDays(1), Plans.Even(from, Duration.FromHours(1), 24, 48), input: new() { Export = Plans.Even(from, Duration.FromHours(1), 24, 24) }).Terms.Single();

        Assert.Equal(12m, term.UsedKwh);
    }

    // Prices of hours 0, 1, 2, ... are 0.00, 0.01, 0.02; the fourth is missing. By the rules of tariffs/README.md.
    [Theory]
    [InlineData("previous", 4, "0.03")]
    [InlineData("previous", 60, "0.47")]
    [InlineData("dayBefore", 28, "0.28")]
    [InlineData("dayBefore", 24, "0.24")]
    [InlineData("dayBefore", 50, "0.26")]
    [InlineData("dayBefore", 52, "0.28")]
    [InlineData("dayBefore", 180, "0.36")]
    [InlineData("price, missingPrice: 0.77", 4, "0.77")]
    [InlineData("price, missingPrice: 0.77", 48, "0.77")]
    public void HourlyPrice_Missing_FollowsTheRule(string rule, int hour, string expected)
    {
        var plan = Plans.Of($"energyCharges: [ {{ name: Energy, hourlyPrice: {{ series: market, missing: {rule} }} }} ]");
        var series = new PriceSeries(Start, Duration.FromHours(1), [.. Enumerable.Range(0, 48).Select(h => h == 4 ? null : (decimal?)(0.01m * h))]);
        var from = Start + Duration.FromHours(hour);
        var prices = PriceScheduleBuilder.Build(plan, from, from + Duration.FromHours(1), input: new() { Prices = new Dictionary<string, PriceSeries> { ["market"] = series } });

        Assert.Equal(decimal.Parse(expected, null), Assert.Single(prices.Spans).ImportPerKwh);
    }

    // dayBefore looks back 168 hours and no further; before the beginning there is no earlier price; the first that is missing is named.
    [Theory]
    [InlineData("previous", -1, "none at 2025-12-31T23:00:00Z")]
    [InlineData("dayBefore", 4, "none at 2026-01-01T04:00:00Z")]
    [InlineData("dayBefore", 216, "none at 2026-01-10T00:00:00Z")]
    [InlineData("refuse", 48, "none at 2026-01-03T00:00:00Z")]
    public void HourlyPrice_MissingBeyondTheRule_IsRefused(string rule, int hour, string found)
    {
        var plan = Plans.Of($"energyCharges: [ {{ name: Energy, hourlyPrice: {{ series: market, missing: {rule} }} }} ]");
        var series = new PriceSeries(Start, Duration.FromHours(1), [.. Enumerable.Range(0, 48).Select(h => h == 4 ? null : (decimal?)(0.01m * h))]);
        var from = Start + Duration.FromHours(hour);
        var refused = Assert.Throws<ArgumentException>(() => PriceScheduleBuilder.Build(
            plan, from, from + Duration.FromHours(1), input: new() { Prices = new Dictionary<string, PriceSeries> { ["market"] = series } }));

        Assert.Contains(found, refused.Message, StringComparison.Ordinal);
    }

    // "multiplier x p + adder, then at least atLeast, at most atMost".
    [Theory]
    [InlineData("multiplier: 2, adder: 0.05", "0.45")]
    [InlineData("atLeast: 0.30", "0.30")]
    [InlineData("atMost: 0.15", "0.15")]
    [InlineData("atLeast: 0.20, atMost: 0.20", "0.20")]
    [InlineData("atLeast: 0.10, atMost: 0.30", "0.20")]
    public void HourlyPrice_WithLimits_IsKeptWithin(string rule, string expected)
    {
        var plan = Plans.Of($"energyCharges: [ {{ name: Energy, hourlyPrice: {{ series: market, missing: refuse, {rule} }} }} ]");
        var series = new PriceSeries(Start, Duration.FromHours(1), [0.20m]);
        var input = new BillInput { Prices = new Dictionary<string, PriceSeries> { ["market"] = series } };

        Assert.Equal(decimal.Parse(expected, null), PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromHours(1), input: input).Spans.Single().ImportPerKwh);
        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Plans.Even(Start, Duration.FromHours(1), 1, 1), input: input).Total);
    }
}
