using System.Globalization;
using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests.Comparisons;

/// <summary>Several weather years through the API: JSON, CSV and report say the same.</summary>
public sealed class WintersApiTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Winters_OfTwoYears_AreTheTwoYearsAskedAlone()
    {
        var request = Small();
        var together = (await Answer(request)).GetProperty("winters");
        var years = request["weather"]!.AsArray().Select(w => w!.DeepClone()).ToArray();
        var alone = new List<JsonElement>();
        foreach (var year in years)
        {
            request["weather"] = year.DeepClone();
            request["options"]!["winters"] = false;
            alone.Add(await Answer(request));
        }

        Assert.False(alone[0].TryGetProperty("winters", out _));
        foreach (var (cell, i) in together.GetProperty("cells").EnumerateArray().Select((c, i) => (c, i)))
        {
            var costs = alone.Select(a => Amount(a.GetProperty("cells")[i], "wholeHouseCost")).Order().ToArray();
            var range = cell.GetProperty("wholeHouseCost");
            Assert.Equal((costs[0], costs[1]), (Amount(range, "least"), Amount(range, "most")));
            Assert.InRange(Amount(range, "median") - ((costs[0] + costs[1]) / 2), -0.005m, 0.005m);
        }

        // Typical years alone: a week of seven days, and the same under the stated stress, ten degrees colder.
        Assert.Contains("10 K colder", together.GetProperty("stress").GetString(), StringComparison.Ordinal);
        var outlet = together.GetProperty("cells")[0];
        Assert.Equal(7, outlet.GetProperty("coldestWeekDays").GetArrayLength());
        Assert.All(
            outlet.GetProperty("coldestWeekDays").EnumerateArray().Zip(outlet.GetProperty("stressedWeekDays").EnumerateArray()),
            d => Assert.Equal(d.First.GetProperty("meanC").GetDouble() - 10, d.Second.GetProperty("meanC").GetDouble(), 2));
    }

    [Theory]
    [InlineData("[]", "#/weather")]
    [InlineData("""[{"temperatureC":1},{"temperatureC":1},{"temperatureC":1},{"temperatureC":1},{"temperatureC":1},{"temperatureC":1}]""", "#/weather")]
    [InlineData("""[{"temperatureC":1},{"temperatureC":99}]""", "#/weather/1/temperatureC")]
    [InlineData("""[{"temperatureC":1},[]]""", "#/weather/1")]
    [InlineData("""[{"temperatureC":1},{"hourly":{"start":"2026-01-01T00:00","temperatureC":[1,2]}}]""", "#/weather/1")]
    public async Task Weather_WithAFault_NamesTheYear(string weather, string pointer)
    {
        var request = Small();
        request["weather"] = JsonNode.Parse(weather);
        var problem = await ServiceApplication.ProblemOf(
            await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);
        Assert.Contains(problem.GetProperty("errors").EnumerateArray(), e => e.GetProperty("pointer").GetString() == pointer);
    }

    [Theory]
    [InlineData("housePlan", "\"specimen-light-car-meter\"", "#/housePlan")]
    [InlineData("housePlan", "\"example-power-three-seasons\"", "#/housePlan")]
    [InlineData("byNight", """{"horizonDays":15}""", "#/byNight/horizonDays")]
    [InlineData("byNight", """{"tripEnergyFactor":0}""", "#/byNight/tripEnergyFactor")]
    public async Task Year_WithAFault_NamesTheField(string field, string value, string pointer)
    {
        var request = Small();
        request[field] = JsonNode.Parse(value);
        var problem = await ServiceApplication.ProblemOf(
            await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);
        Assert.Contains(problem.GetProperty("errors").EnumerateArray(), e => e.GetProperty("pointer").GetString() == pointer);
    }

    [Fact]
    public async Task Report_OfTwoYears_ShowsMedianAndRange()
    {
        var request = Small();
        var cell = (await Answer(request)).GetProperty("winters").GetProperty("cells")[0].GetProperty("wholeHouseCost");
        using var message = new HttpRequestMessage(HttpMethod.Post, "/v1/comparisons") { Content = Requests.Json(request) };
        message.Headers.Accept.ParseAdd("text/html");
        var page = await (await service.CreateClient().SendAsync(message)).Content.ReadAsStringAsync();
        Assert.Contains(
            string.Create(CultureInfo.InvariantCulture, $">{Amount(cell, "median"):N2}</td><td>{Amount(cell, "least"):N2} to&#xA0;{Amount(cell, "most"):N2}</td>"), page, StringComparison.Ordinal);
    }

    private static JsonObject Small()
    {
        var request = (JsonObject)ApiSchemas.Example("comparison-winters");
        request["ratePlans"] = new JsonArray("example-power-standard", "example-power-day-and-night");
        request["behaviours"] = new JsonArray("onArrival");
        return request;
    }

    private static decimal Amount(JsonElement parent, string name) =>
        decimal.Parse(parent.GetProperty(name).GetProperty("amount").GetString()!, CultureInfo.InvariantCulture);

    private async Task<JsonElement> Answer(JsonObject request)
    {
        var response = await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        return JsonElement.Parse(text);
    }
}
