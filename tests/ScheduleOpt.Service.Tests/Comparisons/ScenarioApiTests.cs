using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Service.Tests.Comparisons;

/// <summary>Scenarios are stored as one JSON: what an answer holds may be sent again; nothing in it breaks the service.</summary>
public sealed class ScenarioApiTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Scenario_OfAnAnswer_SentAgain_GivesTheSameAnswer()
    {
        var request = DecisionApiTests.Small();
        request["scenario"] = JsonNode.Parse("""
            {"name":"Shorter days","overrides":[{"field":"#/calendar/trips/0/distanceKm","value":32,"note":"moved nearer","author":"A"},
            {"field":"#/vehicle/constants/overheadKw","value":0.5,"note":"measured","author":"B"},
            {"field":"#/setUps/0/name","value":"The \u00fcber outlet <b>","note":"renamed","author":"B"}]}
            """);
        request["today"]!["setUp"] = "The \u00fcber outlet <b>";
        var first = await Answer(request);
        request["scenario"] = JsonNode.Parse(first.GetProperty("scenario").GetRawText());
        var second = await Answer(request);

        // The request is another text, so its hash is another; everything else is the same.
        Assert.Equal(first.GetProperty("scenario").GetRawText(), second.GetProperty("scenario").GetRawText());
        Assert.Equal(first.GetProperty("cells").GetRawText(), second.GetProperty("cells").GetRawText());
    }

    [Theory]
    [InlineData("#/")]
    [InlineData("#")]
    [InlineData("#//")]
    [InlineData("#/%")]
    [InlineData("#/%ED%A0%80")]
    [InlineData("#/vehicle/~")]
    [InlineData("#/calendar/trips/-1/distanceKm")]
    [InlineData("#/calendar/trips/00/distanceKm")]
    [InlineData("#/calendar/trips/99999999999999999999/distanceKm")]
    [InlineData("#/calendar/trips/0/distanceKm/deeper")]
    [InlineData("#/a/b/c/d/e/f/g/h/i")]
    [InlineData("#/scenario/name")]
    [InlineData("#/timeZone")]
    [InlineData("#/setUps")]
    [InlineData("#/__proto__/x")]
    public async Task Scenario_ThatLeadsNowhereGood_IsRefusedByName(string field)
    {
        var request = DecisionApiTests.Small();
        request["scenario"] = new JsonObject
        {
            ["name"] = "x", ["author"] = "a",
            ["overrides"] = new JsonArray(new JsonObject { ["field"] = field, ["value"] = 1e308, ["note"] = "n" }),
        };
        await ServiceApplication.ProblemOf(await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);
    }

    [Fact]
    public async Task Scenario_WithTooManyOverridesOrTheSameTwice_IsRefused()
    {
        foreach (var count in new[] { 2, 51 })
        {
            var request = DecisionApiTests.Small();
            request["scenario"] = new JsonObject
            {
                ["name"] = "x", ["author"] = "a",
                ["overrides"] = new JsonArray([.. Enumerable.Repeat(0, count).Select(_ => (JsonNode)new JsonObject { ["field"] = "#/year", ["value"] = 2027, ["note"] = "n" })]),
            };
            var problem = await ServiceApplication.ProblemOf(
                await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);
            Assert.StartsWith("#/scenario/overrides", problem.GetProperty("errors")[0].GetProperty("pointer").GetString(), StringComparison.Ordinal);
        }
    }

    private async Task<JsonElement> Answer(JsonObject request)
    {
        var response = await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        return JsonElement.Parse(text);
    }
}
