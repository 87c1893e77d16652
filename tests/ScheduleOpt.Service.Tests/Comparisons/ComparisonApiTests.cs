using System.Globalization;
using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests.Comparisons;

public sealed class ComparisonApiTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Comparison_OfTheExample_HasACellForEachCombinationAndLeastCostIsNeverBeaten()
    {
        var response = await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(Example()));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        var cells = JsonElement.Parse(text).GetProperty("cells").EnumerateArray().ToArray();

        // Two set-ups at home x two rate plans x four behaviours, and public charging alone once for each rate plan.
        Assert.Equal((2 * 2 * 4) + 2, cells.Length);
        Assert.Equal(1, cells.Min(c => c.GetProperty("rank").GetInt32()));
        foreach (var group in cells.GroupBy(c => (c.GetProperty("setUp").GetString(), c.GetProperty("ratePlan").GetString())))
        {
            if (group.Count() > 1)
            {
                Assert.Equal("leastCostKnownAhead", group.MinBy(Cost).GetProperty("behaviour").GetString());
            }
        }

        Assert.All(cells, c => Assert.Equal(
            Cost(c) - Total(c, "billWithoutCar"), decimal.Parse(Amount(c, "carCost"), CultureInfo.InvariantCulture)));
    }

    [Theory]
    [InlineData("setUps", "[]", "#/setUps")]
    [InlineData("setUps", """[{"name":"a","publicChargingOnly":true},{"name":"a","publicChargingOnly":true}]""", "#/setUps/1/name")]
    [InlineData("setUps", """[{"name":"a"}]""", "#/setUps/0")]
    [InlineData("setUps", """[{"name":"a","publicChargingOnly":false}]""", "#/setUps/0/publicChargingOnly")]
    [InlineData("ratePlans", """["example-power-standard","example-power-standard"]""", "#/ratePlans/1")]
    [InlineData("ratePlans", """["none-such"]""", "#/ratePlans/0")]
    [InlineData("behaviours", """["onArrival","onArrival"]""", "#/behaviours/1")]
    [InlineData("behaviours", """["smart"]""", "#/behaviours/0")]
    [InlineData("fixedStart", "\"25:00\"", "#/fixedStart")]
    [InlineData("year", "2026.5", "#/year")]
    [InlineData("year", "1e9", "#/year")]
    [InlineData("awayCharging", """{"pricePerKwh":-1}""", "#/awayCharging/pricePerKwh")]
    [InlineData("weather", """{"hourly":{"start":"2026-01-01T00:00","temperatureC":[1,2,3]}}""", "#/weather")]
    [InlineData("houseLoad", """{"hourlyKwh":[1,2,3]}""", "#/houseLoad/hourlyKwh")]
    [InlineData("options", """{"horizonDays":7}""", "#/options/horizonDays")]
    public async Task Comparison_WithAFault_NamesTheField(string field, string value, string pointer)
    {
        var request = Example();
        request[field] = JsonNode.Parse(value);
        var problem = await ServiceApplication.ProblemOf(
            await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);
        Assert.Contains(problem.GetProperty("errors").EnumerateArray(), e => e.GetProperty("pointer").GetString() == pointer);
    }

    [Theory]
    [InlineData("setUps", 13)]
    [InlineData("ratePlans", 41)]
    public async Task Comparison_BeyondItsLimits_Is422AndNamesTheLimit(string field, int count)
    {
        var request = Example();
        var one = request[field]![0]!;
        request[field] = new JsonArray([.. Enumerable.Range(0, count).Select(_ => one.DeepClone())]);
        var problem = await ServiceApplication.ProblemOf(
            await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);
        Assert.Contains($" to {count - 1} ", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Comparison_WithAValueForEachHourOfALeapYear_IsAnswered()
    {
        var request = Example();
        request["year"] = 2028;
        request["setUps"] = new JsonArray(request["setUps"]![2]!.DeepClone());
        request["weather"] = new JsonObject
        {
            ["hourly"] = new JsonObject
            {
                ["start"] = "2028-01-01T00:00",
                ["temperatureC"] = new JsonArray([.. Enumerable.Range(0, 8784).Select(h => JsonValue.Create(h % 24))]),
            },
        };
        var response = await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request));
        Assert.True(response.StatusCode == HttpStatusCode.OK, await response.Content.ReadAsStringAsync());
    }

    private static JsonObject Example() => (JsonObject)ApiSchemas.Example("comparison");

    private static decimal Cost(JsonElement cell) => decimal.Parse(Amount(cell, "wholeHouseCost"), CultureInfo.InvariantCulture);

    private static decimal Total(JsonElement cell, string bill) =>
        decimal.Parse(Amount(cell.GetProperty(bill), "total"), CultureInfo.InvariantCulture);

    private static string Amount(JsonElement parent, string name) => parent.GetProperty(name).GetProperty("amount").GetString()!;
}
