using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using NodaTime;
using ScheduleOpt.Cli.Inputs;

namespace ScheduleOpt.Cli.Tests.Verbs;

/// <summary>Options of compare are the fields that they stand for.</summary>
public sealed class CompareOptionTests
{
    private const string Months = "1010,880,790,640,560,640,790,760,620,600,720,950";
    private static readonly string[] Small = ["--rate-plan", "example-power-standard", "--behaviour", "onArrival"];

    [Theory]
    [InlineData("#/houseLoad", """{"annualKwh":7000}""", "--house-kwh", "7000")]
    [InlineData("#/houseLoad", $$"""{"monthlyKwh":[{{Months}}]}""", "--house-monthly-kwh", Months)]
    [InlineData("#/calibration", $$"""{"billedKwh":[{{Months}}],"billsContainCar":false}""", "--bills-kwh", Months)]
    [InlineData("#/options/winters", "true", "--winters", "yes")]
    [InlineData("#/behaviours", """["byDeparture"]""", "--behaviour", "byDeparture")]
    public async Task Compare_Option_IsTheFieldItStandsFor(string pointer, string value, string option, string typed)
    {
        var request = DemoRequests.Year();
        request["ratePlans"] = new JsonArray("example-power-standard");
        request["behaviours"] = new JsonArray("onArrival");
        new RequestDraft(request, "").Set(pointer, JsonNode.Parse(value)!, "", "");

        var byField = await CommandRun.OfInput(request.ToJsonString(), "compare", "--request", "-", "--json");
        var byOption = await CommandRun.Of([.. Args(option), option, typed, "--json"]);

        Assert.Equal((0, ""), (byOption.Code, byOption.Error));
        Assert.Equal(WithoutHash(byField.Out), WithoutHash(byOption.Out));
    }

    [Theory]
    [InlineData("--house-monthly-kwh", "1,2,3")]
    [InlineData("--house-monthly-kwh", "a,b,c,d,e,f,g,h,i,j,k,l")]
    [InlineData("--house-kwh", "-1")]
    [InlineData("--bills-contain-car", "perhaps")]
    [InlineData("--winters", "cold")]
    [InlineData("--behaviour", "cleverly")]
    [InlineData("--weather", "/no/such/file.csv")]
    [InlineData("--house-plan", "none-such")]
    [InlineData("--scenario", "/no/such/scenario.json")]
    [InlineData("--behind-meter", "a battery")]
    [InlineData("--panel-meter-file", "/no/such/meter.csv")]
    public async Task Compare_BadOption_IsNamed(string option, string typed)
    {
        var run = await CommandRun.Of([.. Args(option), option, typed]);

        Assert.Equal(1, run.Code);
        Assert.Contains($"error: {option}", run.Error, StringComparison.Ordinal);
        Assert.Equal("", run.Out);
    }

    [Fact]
    public async Task Compare_WeatherGivenTwice_ShowsMedianAndRange()
    {
        using var mild = new TemporaryFile("mild.csv", Weather(10));
        using var cold = new TemporaryFile("cold.csv", Weather(-5));

        var run = await CommandRun.Of(["compare", "--demo", .. Small, "--weather", mild.Path, "--weather", cold.Path]);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains("Over 2 weather years", run.Out, StringComparison.Ordinal);
        Assert.Contains("worst on record of 2 measured years", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_ScenarioFile_GoesRoundThroughTheAnswer()
    {
        const string scenario = """{"name":"Dearer","author":"A","overrides":[{"field":"#/awayCharging/pricePerKwh","value":0.6,"note":"seen"}]}""";
        using var first = new TemporaryFile("scenario.json", scenario);
        var one = await CommandRun.Of(["compare", "--demo", .. Small, "--scenario", first.Path, "--json"]);
        using var whole = new TemporaryFile("answer.json", one.Out);
        var two = await CommandRun.Of(["compare", "--demo", .. Small, "--scenario", whole.Path, "--json"]);

        Assert.Equal((0, "", 0, ""), (one.Code, one.Error, two.Code, two.Error));
        Assert.Equal(WithoutHash(one.Out), WithoutHash(two.Out));
        Assert.Equal("0.48", JsonElement.Parse(one.Out).GetProperty("scenario").GetProperty("overrides")[0].GetProperty("was").GetString());
    }

    [Theory]
    [InlineData("none", 15, "room by this estimate")]
    [InlineData("none", 60, "60 minutes can't decide")]
    [InlineData("generation,storage", 15, "Storage is behind the meter")]
    public async Task Compare_PanelMeterFile_IsEstimatedOrSaysWhyNot(string behind, int minutes, string said)
    {
        using var meter = new TemporaryFile("meter.csv", Meter(minutes));

        var run = await CommandRun.Of(["compare", "--demo", .. Small, "--service-amperes", "200", "--panel-meter-file", meter.Path, "--behind-meter", behind]);

        Assert.Equal(0, run.Code);
        Assert.Contains(said, run.Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Contains("never a clearance", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_PanelMeterFileAlone_AsksWhatLiesBehindIt()
    {
        using var meter = new TemporaryFile("meter.csv", Meter(60));

        var run = await CommandRun.Of(["compare", "--demo", .. Small, "--service-amperes", "200", "--panel-meter-file", meter.Path]);

        Assert.Equal(1, run.Code);
        Assert.Contains("--panel-meter-file (#/panel/metered/generation): Is missing.", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_LifeCycle_ShowsTheBestOfEachSetUp()
    {
        var request = DemoRequests.Year();
        request["ratePlans"] = new JsonArray("example-power-standard");
        request["behaviours"] = new JsonArray("onArrival");
        request["today"] = JsonNode.Parse("""{"setUp":"Ordinary outlet, 120 V, 12 A","ratePlan":"example-power-standard","behaviour":"onArrival"}""");
        request["lifeCycle"] = JsonNode.Parse("""{"studyYears":10}""");

        var run = await CommandRun.OfInput(request.ToJsonString(), "compare", "--request", "-");

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains("By life-cycle cost over 10 years", run.Out, StringComparison.Ordinal);
        Assert.All(run.Lines, l => Assert.True(l.Length <= 80, l));
    }

    private static string[] Args(string option) => option == "--behaviour" ? ["compare", "--demo", "--rate-plan", "example-power-standard"] : ["compare", "--demo", .. Small];

    private static string WithoutHash(string answer)
    {
        var json = JsonNode.Parse(answer)!.AsObject();
        json.Remove("inputHash");
        return json.ToJsonString();
    }

    private static string Weather(int celsius)
    {
        var text = new StringBuilder("month,day,hour,temperature_c\n");
        var at = new LocalDateTime(2001, 1, 1, 0, 0);
        for (var h = 0; h < 8760; h++, at = at.PlusHours(1))
        {
            text.Append(CultureInfo.InvariantCulture, $"{at.Month},{at.Day},{at.Hour},{celsius}\n");
        }

        return text.ToString();
    }

    // A whole year: 1 kW throughout and 5 kW once.
    private static string Meter(int minutes)
    {
        var text = new StringBuilder("Time,kWh\n");
        var start = Instant.FromUtc(2025, 1, 1, 6, 0);
        for (var i = 0; i < 365 * 24 * 60 / minutes; i++)
        {
            text.Append(CultureInfo.InvariantCulture,
                $"{(start + Duration.FromMinutes(minutes * i)).ToString("uuuu-MM-dd'T'HH:mm'Z'", CultureInfo.InvariantCulture)},{(i == 100 ? 5 : 1) * minutes / 60.0}\n");
        }

        return text.ToString();
    }
}
