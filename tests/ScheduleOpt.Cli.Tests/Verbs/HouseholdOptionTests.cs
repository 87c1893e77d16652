using System.Globalization;
using System.Text.Json;

namespace ScheduleOpt.Cli.Tests.Verbs;

/// <summary>Choices, prices, export, events and carried state at the prompt. The plans are invented; figures are worked by hand.</summary>
public sealed class HouseholdOptionTests
{
    private static readonly string OneKwhAnHour = "kwh\n" + string.Concat(Enumerable.Repeat("1\n", 24));

    [Fact]
    public async Task Bill_WithPricesAndExportInTables_IsTheBillWorkedByHand()
    {
        // Saturday 20 June: six hours export 1.5 kWh, netted 0.5 kWh out and nothing in; the other 18 take 1 kWh.
        // Customer 0.37; base 18 x 0.124 = 2.23; correction 18 x (0.05 / 10 - 0.004) = 0.02; avoided cost 3 x 0.051 = 0.15 off, banked for the next bill;
        // tax 4 % of 2.62 = 0.10. In all 2.72.
        using var use = new TemporaryFile("use.csv", OneKwhAnHour);
        using var export = new TemporaryFile("export.csv", "kwh\n" + string.Concat(Enumerable.Range(0, 24).Select(h => h is >= 9 and < 15 ? "1.5\n" : "0\n")));
        using var prices = new TemporaryFile("prices.csv", "time,USD per MWh\n" + string.Concat(Enumerable.Range(0, 24).Select(h => $"2026-06-20 {h:00}:00,50\n")));
        using var state = new TemporaryFile("state.json", "");
        string[] args = ["bill", "--rate-plan", "model-county-solar-home", "--series", use.Path, "--export-file", export.Path, "--start", "2026-06-20T00:00",
            "--interval-minutes", "60", "--prices-file", $"day-ahead={prices.Path}"];
        var run = await CommandRun.Of([.. args, "--write-state", state.Path, "--json"]);
        Assert.Equal(0, run.Code);
        Assert.Contains("divided by 1000", run.Error, StringComparison.Ordinal);
        Assert.Equal("2.72", Total(run));
        Assert.Contains("\"creditBank\":\"0.15\"", await File.ReadAllTextAsync(state.Path, TestContext.Current.CancellationToken), StringComparison.Ordinal);

        // The next day the bank pays 0.15 of the bill, and takes 0.15 for the same export.
        var next = await CommandRun.Of([.. args, "--state-file", state.Path, "--json"]);
        Assert.Equal("2.57", Total(next));
    }

    [Fact]
    public async Task Bill_WithAChoiceAndAnEventTable_IsTheBillWorkedByHand()
    {
        // Tuesday 28 July: 4 kWh at 0.85 = 3.40, 20 at 0.061 = 1.22, 1 kW in the evening 6.20, basic 0.32; credits 0.13 (control), 0.04, 0.03, 0.02:
        // 10.92, missing to the minimum 3.08, tax 2 % of 14.00 = 0.28. In all 14.28.
        using var use = new TemporaryFile("use.csv", OneKwhAnHour);
        using var events = new TemporaryFile("events.csv", "event,from,to\ncritical peak,2026-07-28T15:00,2026-07-28T19:00\n");
        string[] args = ["bill", "--rate-plan", "model-county-peak-aware", "--series", use.Path, "--start", "2026-07-28T00:00", "--interval-minutes", "60"];
        var run = await CommandRun.Of([.. args, "--events-file", events.Path, "--choice", "demand control=fitted"]);
        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains("Total: 14.28 USD", run.Out, StringComparison.Ordinal);
        Assert.Contains("demand control fitted", run.Out, StringComparison.Ordinal);
        Assert.Matches(@"Critical peak +4 +kWh +0\.85 +3\.40", run.Out);

        var open = await CommandRun.Of(args);
        Assert.Contains("demand control is not chosen", open.Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--choice", "heating=gas", "--choice: Is not an option of this rate plan. Known: demand control.")]
    [InlineData("--choice", "demand control=maybe", "--choice: Must be one of \"none\", \"fitted\".")]
    [InlineData("--choice", "fitted", "--choice: Must be the name of an option")]
    [InlineData("--service-kw", "-3", "--service-kw: Must be a number from 0.1 to 10000 kW. Found: -3")]
    [InlineData("--service-kw", "ten", "--service-kw: Must be a number from 0.1 to 10000 kW. Found: ten")]
    [InlineData("--prices-file", "prices.csv", "--prices-file: Must be the name of a price series")]
    [InlineData("--prices-file", "day-ahead=none-such.csv", "--prices-file: There is no such file.")]
    [InlineData("--events-file", "none-such.csv", "--events-file: There is no such file.")]
    [InlineData("--state-file", "none-such.json", "--state-file: There is no such file.")]
    [InlineData("--reading-dates", "2026-07-32", "--reading-dates (#/readingDates/0): Must be a date")]
    public async Task Bill_WithABadOption_NamesItAndItsRule(string option, string typed, string expected)
    {
        using var use = new TemporaryFile("use.csv", OneKwhAnHour);
        var run = await CommandRun.Of(
            "bill", "--rate-plan", "model-county-peak-aware", "--series", use.Path, "--start", "2026-07-28T00:00", "--interval-minutes", "60", option, typed);
        Assert.Equal((1, ""), (run.Code, run.Out));
        Assert.Contains($"error: {expected}", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bill_OnAPlanWithPricesAndNone_NamesTheOption()
    {
        using var use = new TemporaryFile("use.csv", OneKwhAnHour);
        var run = await CommandRun.Of("bill", "--rate-plan", "model-county-solar-home", "--series", use.Path, "--start", "2026-06-20T00:00", "--interval-minutes", "60");
        Assert.Equal(1, run.Code);
        Assert.Contains("error: --prices-file (#/prices/day-ahead): Is missing.", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Schedule_OnPricesInATable_RunsAndNamesTheFirstHourMissing()
    {
        string Table(int hours) => "time,price per kWh\n" + string.Concat(Enumerable.Range(0, hours)
            .Select(h => string.Create(CultureInfo.InvariantCulture, $"2026-01-{14 + ((h + 17) / 24)} {(h + 17) % 24:00}:00,0.{h % 9 + 1}\n")));
        using var enough = new TemporaryFile("prices.csv", Table(24 * 9));
        string[] args = ["schedule", "--demo", "--rate-plan", "model-county-solar-home", "--json", "--prices-file"];
        var run = await CommandRun.Of([.. args, $"day-ahead={enough.Path}"]);
        Assert.True(run.Code == 0, run.Error);

        using var few = new TemporaryFile("prices.csv", Table(24));
        run = await CommandRun.Of([.. args, $"day-ahead={few.Path}"]);
        Assert.Equal(1, run.Code);
        Assert.Contains("the first without one begins at 2026-01-15T16:00:00-06:00", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_WithAChoice_GivesItToThePlansThatHaveTheOption()
    {
        string[] args = ["compare", "--demo", "--rate-plan", "model-county-peak-aware", "--rate-plan", "example-power-standard", "--json", "--choice"];
        var none = await CommandRun.Of([.. args, "demand control=none"]);
        var fitted = await CommandRun.Of([.. args, "demand control=fitted"]);
        Assert.Equal(0, none.Code);
        Assert.True(WithoutCar(fitted, "model-county-peak-aware") < WithoutCar(none, "model-county-peak-aware"));
        Assert.Equal(WithoutCar(fitted, "example-power-standard"), WithoutCar(none, "example-power-standard"));

        var unknown = await CommandRun.Of([.. args, "heating=gas"]);
        Assert.Equal(1, unknown.Code);
        Assert.Contains("--choice: No rate plan here has this option. Known: demand control.", unknown.Error, StringComparison.Ordinal);
    }

    private static decimal WithoutCar(CommandRun run, string plan) => decimal.Parse(
        JsonDocument.Parse(run.Out).RootElement.GetProperty("cells").EnumerateArray().First(c => c.GetProperty("ratePlan").GetString() == plan)
            .GetProperty("billWithoutCar").GetProperty("total").GetProperty("amount").GetString()!,
        CultureInfo.InvariantCulture);

    private static string? Total(CommandRun run) => JsonDocument.Parse(run.Out).RootElement.GetProperty("total").GetProperty("amount").GetString();
}
