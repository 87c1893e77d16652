using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Tariffs.Tests;

// Net metering by hand: 3, 4 and 2 kWh of import at 00:00, 05:00 and 10:00 of 1 January; night (to 04:00) costs 0.10, day 0.30. Export is taken off imports in order of
// time until it is used up, so that a kWh before that is billed where the credit ends.
public class NetMeteringPriceTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);

    // 5 kWh: 2 of those at 05:00 are left. Up to there a kWh costs 0.30 night and day; after it its own price. More export ends the credit later: it is worth 0.30.
    [Fact]
    public void Credit_ThatEndsAtAnInterval_MovesThePriceThere()
    {
        var prices = Prices("bankBy: pool", 5);

        Assert.Equal([(0, 0.30m, 0.30m, "night"), (4, 0.30m, 0.30m, "day"), (24, 0.10m, 0.30m, "night"), (28, 0.30m, 0.30m, "day")], Shown(prices));
        Assert.Equal(new PriceEdge(EdgeKind.ZeroNetFlow, "Export", Start, 2, 2, "kWh", false), Assert.Single(prices.Edges));
    }

    // 1 kWh: the credit ends at 00:00, at the night's price.
    [Fact]
    public void Credit_ThatEndsAtOnce_LeavesImportWhereItIs()
    {
        var prices = Prices("bankBy: pool", 1);

        Assert.Equal([(0, 0.10m, 0.10m, "night"), (4, 0.30m, 0.10m, "day"), (24, 0.10m, 0.10m, "night"), (28, 0.30m, 0.10m, "day")], Shown(prices));
        Assert.Equal(new PriceEdge(EdgeKind.ZeroNetFlow, "Export", Start, 1, 2, "kWh", false), Assert.Single(prices.Edges));
    }

    // 20 kWh: 11 are banked, and a kWh takes one of them. It is worth what the bank pays, where this billing period settles it.
    [Theory]
    [InlineData("bankBy: pool", "0")]
    [InlineData("bankBy: pool, payOutPerKwh: 0.04, settlementMonth: 2", "0")]
    [InlineData("bankBy: pool, payOutPerKwh: 0.04, settlementMonth: 1", "0.04")]
    public void Credit_ThatIsLeft_IsWorthWhatTheBankPays(string rule, string worth)
    {
        var (prices, paid) = (Prices(rule, 20), decimal.Parse(worth, null));

        Assert.Equal([(0, paid, paid, "night"), (4, paid, paid, "day"), (24, paid, paid, "night"), (28, paid, paid, "day")], Shown(prices));
        Assert.Equal(new PriceEdge(EdgeKind.ZeroNetFlow, "Export", Start, 11, null, "kWh", false), Assert.Single(prices.Edges));
    }

    // 9 kWh: nothing is billed and nothing banked; either way the next kWh is an edge.
    [Fact]
    public void Credit_ThatIsJustEnough_IsAnEdgeOnBothSides()
    {
        var prices = Prices("bankBy: pool", 9);

        Assert.Equal([(0, 0.10m, 0m, "night"), (4, 0.30m, 0m, "day"), (24, 0.10m, 0m, "night"), (28, 0.30m, 0m, "day")], Shown(prices));
        Assert.Equal(new PriceEdge(EdgeKind.ZeroNetFlow, "Export", Start, 0, 0, "kWh", false), Assert.Single(prices.Edges));
    }

    // By period: 4 kWh exported by day leave the night's import alone, and are used up by 05:00's 4.
    [Fact]
    public void Credit_ByPeriod_StaysInItsPeriod()
    {
        var prices = Prices("bankBy: period", 4.5);

        Assert.Equal([(0, 0.10m, 0.10m, "night"), (4, 0.30m, 0.30m, "day"), (24, 0.10m, 0.10m, "night"), (28, 0.30m, 0.30m, "day")], Shown(prices));
        Assert.Equal(
            [new PriceEdge(EdgeKind.ZeroNetFlow, "Export, night", Start, 0, 3, "kWh", false), new PriceEdge(EdgeKind.ZeroNetFlow, "Export, day", Start, 0.5m, 1.5m, "kWh", false)],
            prices.Edges);
    }

    // Without expected use nothing is known of a credit: an exported kWh is worth an imported one.
    [Fact]
    public void Export_WithoutExpectedUse_IsWorthAnImport()
    {
        var prices = PriceScheduleBuilder.Build(Plan("bankBy: pool"), Start, Start + Duration.FromHours(36));

        Assert.Equal([(0, 0.10m, 0.10m, "night"), (4, 0.30m, 0.30m, "day"), (24, 0.10m, 0.10m, "night"), (28, 0.30m, 0.30m, "day")], Shown(prices));
        Assert.Empty(prices.Edges);
    }

    // Asked for from 06:00: the credit ended before.
    [Fact]
    public void Price_AskedForLater_BeginsThere()
    {
        var from = Start + Duration.FromHours(6);
        var prices = PriceScheduleBuilder.Build(Plan("bankBy: pool"), from, from + Duration.FromHours(6), Import, input: new() { Export = Plans.WithUse(Start, 31 * 24, (12, 5)) });

        Assert.Equal(new PriceSpan(from, 0.30m, "day", 0.30m), Assert.Single(prices.Spans));
        Assert.Equal(from + Duration.FromHours(6), prices.End);
    }

    private static MeteredSeries Import => Plans.WithUse(Start, 31 * 24, (0, 3), (5, 4), (10, 2));

    private static PriceSchedule Prices(string rule, double exported) =>
        PriceScheduleBuilder.Build(Plan(rule), Start, Start + Duration.FromHours(36), Import, input: new() { Export = Plans.WithUse(Start, 31 * 24, (12, exported)) });

    private static RatePlan Plan(string rule) => Plans.Of($$"""
        periods: [night, day]
        windows: [ { period: night, from: 00:00, to: 04:00 } ]
        defaultPeriod: day
        energyCharges: [ { name: Night, periods: [night], pricePerKwh: 0.10 }, { name: Day, periods: [day], pricePerKwh: 0.30 } ]
        export: { kind: netMetering, {{rule}} }
        """);

    private static IEnumerable<(int Hour, decimal Import, decimal Export, string Period)> Shown(PriceSchedule prices) =>
        prices.Spans.Select(s => ((int)(s.Start - Start).TotalHours, s.ImportPerKwh, s.ExportPerKwh, s.Period));
}
