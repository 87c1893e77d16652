using System.Text.Json;

namespace ScheduleOpt.Cli.Tests.Verbs;

public sealed class BillTests
{
    /// <summary>31 days of 3.2 kWh on the plan Standard: 12.00 + 99.2 x 0.1290 = 12.80 + 99.2 x 0.0045 = 0.45, in all 25.25; tax 2.5 % = 0.63.</summary>
    private const string January = "25.88";

    private static readonly string Days = "day,kwh\n" + string.Concat(Enumerable.Range(1, 31).Select(d => $"{d},3.2\n"));

    [Fact]
    public async Task Bill_ReadingsInCsv_IsTheBillWorkedByHand()
    {
        var run = await CommandRun.OfInput(Days, Arguments);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains($"Total: {January} USD", run.Out, StringComparison.Ordinal);
        Assert.Matches(@"Energy +99\.2 +kWh +0\.129 +12\.80", run.Out);
    }

    [Fact]
    public async Task Bill_Json_HasTheSameTotal()
    {
        var run = await CommandRun.OfInput(Days, [.. Arguments, "--json"]);

        Assert.Equal(January, JsonDocument.Parse(run.Out).RootElement.GetProperty("total").GetProperty("amount").GetString());
    }

    [Theory]
    [InlineData("day,kwh\n1,3.2\n2,much\n", "line 3")]
    [InlineData("day,kwh\n1,3.2\n2,-1\n", "line 3")]
    [InlineData("day,kwh\n", "Holds no value")]
    public async Task Bill_FaultInAReading_NamesItsLine(string csv, string expected)
    {
        using var file = new TemporaryFile("meter.csv", csv);

        var run = await CommandRun.Of([.. Arguments.Select(a => a == "-" ? file.Path : a)]);

        Assert.Equal((1, ""), (run.Code, run.Out));
        Assert.Contains("meter.csv", run.Error, StringComparison.Ordinal);
        Assert.Contains(expected, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bill_DemoYear_HasTwelveBillingPeriodsThatAddUp()
    {
        var run = await CommandRun.Of("bill", "--demo", "--json");
        var bill = JsonDocument.Parse(run.Out).RootElement;

        Assert.Equal(12, bill.GetProperty("periods").GetArrayLength());
        Assert.Equal(
            decimal.Parse(bill.GetProperty("total").GetProperty("amount").GetString()!, System.Globalization.CultureInfo.InvariantCulture),
            bill.GetProperty("periods").EnumerateArray().Sum(p => decimal.Parse(
                p.GetProperty("total").GetProperty("amount").GetString()!, System.Globalization.CultureInfo.InvariantCulture)));
    }

    private static string[] Arguments =>
        ["bill", "--rate-plan", "example-power-standard", "--series", "-", "--start", "2026-01-01T00:00", "--interval-minutes", "1440"];
}
