using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Cli.Inputs;

namespace ScheduleOpt.Cli.Tests.Verbs;

public sealed class HouseholdScheduleTests
{
    [Theory]
    [InlineData("#/options/running", """{"adjustable":true,"wholeAmperes":true}""", "--current", "whole")]
    [InlineData("#/options/running", """{"adjustable":true,"wholeAmperes":false}""", "--current", "adjustable")]
    [InlineData("#/options/running/mostWindows", "2", "--most-windows", "2")]
    [InlineData("#/options/running/leastOnMinutes", "30", "--least-on", "30")]
    [InlineData("#/options/running/leastOffMinutes", "15", "--least-off", "15")]
    [InlineData("#/options/finishMarginMinutes", "45", "--finish-margin", "45")]
    [InlineData("#/options/noCharging", """[{"from":"17:00","until":"21:00"},{"from":"06:00","until":"07:00","days":["monday","sunday"]}]""", "--no-charging", "17:00-21:00,06:00-07:00/mon/sun")]
    [InlineData("#/options/currentLimits", """[{"from":"22:00","until":"06:00","days":["friday"],"currentA":8.5}]""", "--current-limit", "22:00-06:00/fri/8.5A")]
    [InlineData("#/options/warmUp", """{"minutes":20,"energyKwh":1.5}""", "--warm-up", "20min/1.5kWh")]
    [InlineData("#/options/batteryCare/chemistry", "\"nca\"", "--battery", "nca")]
    [InlineData("#/carbon", """{"pricePerTonne":"60.50","gramsPerKwh":420}""", "--carbon", "60.50/420g")]
    [InlineData("#/options/chargingProfile", """{"version":"2.0.1","unit":"W","outlet":2}""", "--profile", "2.0.1/W/2")]
    [InlineData("#/options/chargingProfile", """{"version":"1.6"}""", "--profile", "1.6")]
    [InlineData("#/importLimitKw", "6", "--import-limit", "6")]
    public async Task Schedule_HouseholdOption_IsTheFieldItStandsFor(string pointer, string value, string option, string typed)
    {
        var request = DemoRequests.Tonight();
        new RequestDraft(request, "").Set(pointer, JsonNode.Parse(value)!, "", "");

        var byField = await CommandRun.OfInput(request.ToJsonString(), "schedule", "--request", "-", "--json");
        var byOption = await CommandRun.Of("schedule", "--demo", option, typed, "--json");

        Assert.Equal((0, ""), (byOption.Code, byOption.Error));
        Assert.Equal(byField.Out, byOption.Out);
    }

    [Theory]
    [InlineData("--current", "max")]
    [InlineData("--no-charging", "5pm-9pm")]
    [InlineData("--no-charging", "17:00-21:00/16A")]
    [InlineData("--no-charging", "17:00-17:00")]
    [InlineData("--current-limit", "22:00-06:00")]
    [InlineData("--current-limit", "22:00-06:00/500A")]
    [InlineData("--warm-up", "20/1.5")]
    [InlineData("--battery", "lead")]
    [InlineData("--most-windows", "0")]
    [InlineData("--import-limit", "-1")]
    [InlineData("--profile", "3.0")]
    [InlineData("--profile", "1.6/kW")]
    [InlineData("--profile", "1.6/5000")]
    [InlineData("--carbon", "60")]
    [InlineData("--carbon", "60/9000g")]
    [InlineData("--profile-file", "x.json")]
    [InlineData("--feed-file", "/no/such/folder/feed.ics")]
    public async Task Schedule_BadHouseholdOption_IsNamed(string option, string typed)
    {
        var run = await CommandRun.Of("schedule", "--demo", option, typed);

        Assert.Equal(1, run.Code);
        Assert.Contains($"error: {option}", run.Error, StringComparison.Ordinal);
        Assert.Equal("", run.Out);
    }

    [Theory]
    [InlineData("--feed-file", "BEGIN:VCALENDAR\r\n")]
    [InlineData("--windows-file", "car,uid,")]
    [InlineData("--intervals-file", "car,start,")]
    [InlineData("--profile-file", "{\"connectorId\":4,")]
    public async Task Schedule_OutputToFileAndStandardOutput_AreTheSame(string option, string begin)
    {
        using var file = new TemporaryFile("out.txt", "");
        string[] asked = ["schedule", "--demo", "--profile", "1.6/A/4", option];

        var shown = await CommandRun.Of([.. asked, "-"]);
        var written = await CommandRun.Of([.. asked, file.Path]);

        Assert.Equal((0, 0, ""), (shown.Code, written.Code, shown.Error + written.Error));
        Assert.StartsWith(begin, shown.Out, StringComparison.Ordinal);
        Assert.Equal(shown.Out, await File.ReadAllTextAsync(file.Path, TestContext.Current.CancellationToken));
        Assert.Contains("When to charge", written.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Schedule_TwoCars_HasAPartForEachWithin80Columns()
    {
        var request = DemoRequests.Tonight();
        var car = new JsonObject();
        foreach (var part in new[] { "vehicle", "supply", "plugIn", "calendar" })
        {
            car[part] = request[part]!.DeepClone();
            request.Remove(part);
        }

        var (first, second) = (car, car.DeepClone().AsObject());
        (first["name"], second["name"]) = ("Blue", "The small one");
        request["cars"] = new JsonArray(first, second);
        request["sharedCircuit"] = JsonNode.Parse("""{"breakerA":40}""");
        request["options"]!["chargingProfile"] = JsonNode.Parse("""{"version":"2.1"}""");

        var run = await CommandRun.OfInput(request.ToJsonString(), "schedule", "--request", "-", "--units", "mi");
        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.All(run.Lines, l => Assert.True(l.Length <= 80, l));
        Assert.Contains("── Blue ", run.Out, StringComparison.Ordinal);
        Assert.Contains("── The small one ", run.Out, StringComparison.Ordinal);
        Assert.Contains("32 A together", run.Out, StringComparison.Ordinal);
        Assert.Contains(" mi ", run.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("\n\n\n", run.Out.ReplaceLineEndings("\n"), StringComparison.Ordinal);

        var profiles = await CommandRun.OfInput(request.ToJsonString(), "schedule", "--request", "-", "--profile-file", "-");
        Assert.Equal(2, JsonElement.Parse(profiles.Out).GetArrayLength());
    }
}
