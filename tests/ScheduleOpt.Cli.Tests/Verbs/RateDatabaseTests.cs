using System.Text.Json;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Cli.Tests.Verbs;

/// <summary>Records in the form of the open US rate database, made into rate plans at the prompt. The utility is invented.</summary>
public sealed class RateDatabaseTests
{
    private static readonly string Record = new JsonObject
    {
        ["label"] = "539fc010ec4f024c27d8a5d9",
        ["utility"] = "Example Power (invented)",
        ["name"] = "Residential",
        ["startdate"] = 1_767_225_600,
        ["energyratestructure"] = JsonNode.Parse("""[[{"rate":0.10,"unit":"kWh"}],[{"rate":0.20,"unit":"kWh"}]]"""),
        ["energyweekdayschedule"] = Matrix(h => h is >= 7 and < 21 ? 1 : 0),
        ["energyweekendschedule"] = Matrix(_ => 0),
        ["fixedchargefirstmeter"] = 10.5m,
        ["fixedchargeunits"] = "$/month",
        ["somethingnew"] = 3,
    }.ToJsonString();

    [Theory]
    [InlineData("plan.yaml")]
    [InlineData("plan.json")]
    public async Task Record_WrittenAsARatePlan_IsBilledByItsPrices(string name)
    {
        using var record = new TemporaryFile("record.json", Record);
        using var plan = new TemporaryFile(name, "");
        var run = await CommandRun.Of("check", "--rate-database", record.Path, "--zone", "America/Chicago", "--write", plan.Path);
        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains("somethingnew: This field is not known.", run.Out, StringComparison.Ordinal);
        Assert.Contains("<taxes>", run.Out, StringComparison.Ordinal);

        // Wednesday 14 January 2026, 1 kWh an hour: 14 x 0.20 + 10 x 0.10 + 10.50 / 31 = 3.80 + 0.3387.
        using var use = new TemporaryFile("use.csv", "kwh\n" + string.Concat(Enumerable.Repeat("1\n", 24)));
        var bill = await CommandRun.Of("bill", "--rate-plan", plan.Path, "--series", use.Path, "--start", "2026-01-14T00:00", "--interval-minutes", "60", "--json");
        Assert.Equal("4.14", JsonDocument.Parse(bill.Out).RootElement.GetProperty("total").GetProperty("amount").GetString());
    }

    [Fact]
    public async Task Record_AsJson_HasEachFieldAndTheDocument()
    {
        var run = await CommandRun.OfInput(Record, "check", "--rate-database", "-", "--zone", "America/Chicago", "--json");
        var answer = JsonDocument.Parse(run.Out).RootElement;
        Assert.Equal(0, run.Code);
        Assert.Contains(answer.GetProperty("fields").EnumerateArray(), f =>
            f.GetProperty("field").GetString() == "somethingnew" && f.GetProperty("carried").GetString() == "no");
        Assert.Equal("America/Chicago", answer.GetProperty("document").GetProperty("timeZone").GetString());
    }

    [Theory]
    [InlineData("{", "valid JSON", "--rate-database", "-", "--zone", "America/Chicago")]
    [InlineData("{}", "energyratestructure", "--rate-database", "-", "--zone", "America/Chicago")]
    [InlineData("{}", "--zone: Must be the IANA time zone", "--rate-database", "-")]
    [InlineData("{}", "--zone: Must be the IANA time zone", "--rate-database", "-", "--zone", "Mars/Olympus")]
    [InlineData("", "--write: Is used together with --rate-database alone.", "example-power-standard", "--write", "x.yaml")]
    [InlineData("", "FILE: Can't be combined with --rate-database", "example-power-standard", "--rate-database", "-")]
    [InlineData("", "FILE: Is missing: give at least one rate-plan document")]
    public async Task Record_OrOptionsThatAreFaulty_AreRefused(string input, string expected, params string[] args)
    {
        var run = await CommandRun.OfInput(input, ["check", .. args]);
        Assert.Equal((1, ""), (run.Code, run.Out));
        Assert.Contains(expected, run.Error, StringComparison.Ordinal);
    }

    private static JsonArray Matrix(Func<int, int> period) =>
        new([.. Enumerable.Range(0, 12).Select(_ => (JsonNode)new JsonArray([.. Enumerable.Range(0, 24).Select(h => (JsonNode)period(h))]))]);
}
