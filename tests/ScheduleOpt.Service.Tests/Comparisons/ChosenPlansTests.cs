using System.Globalization;
using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests.Comparisons;

/// <summary>Comparisons of rate plans with choices, prices and events.</summary>
public sealed class ChosenPlansTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Comparison_OfOnePlanUnderTwoChoices_BillsEachAsTheBillDoes()
    {
        // The control credit is 4.00 a month before 2 % tax, and the heating demand goes with no control: control can only be cheaper.
        var cells = (await Answer(Example())).GetProperty("cells").EnumerateArray().ToArray();
        Assert.Equal(["with-control", "without-control"], cells.Select(c => c.GetProperty("ratePlan").GetString()).Distinct().Order());
        decimal Cost(string plan) => decimal.Parse(
            cells.First(c => c.GetProperty("ratePlan").GetString() == plan).GetProperty("billWithoutCar").GetProperty("total").GetProperty("amount").GetString()!,
            CultureInfo.InvariantCulture);
        Assert.True(Cost("with-control") + 12 * 4.00m <= Cost("without-control"));
    }

    [Fact]
    public async Task Comparison_OnAPlanWithHourlyPrices_NeedsAYearOfThem()
    {
        var request = Example();
        request["ratePlans"] = new JsonArray("model-county-solar-home");
        request.Remove("events");
        Assert.Equal(["#/prices/day-ahead"], await Pointers(request));

        JsonObject Prices(int hours) => new()
        {
            ["day-ahead"] = new JsonObject
            {
                ["start"] = "2026-01-01T00:00",
                ["intervalMinutes"] = 60,
                ["pricePerKwh"] = new JsonArray([.. Enumerable.Range(0, hours).Select(h => (JsonNode)JsonValue.Create(0.01m * (h % 24)))]),
            },
        };
        request["prices"] = Prices(8759);
        Assert.Equal(["#/prices/day-ahead/pricePerKwh"], await Pointers(request));
        request["prices"] = Prices(8760);
        Assert.NotEmpty((await Answer(request)).GetProperty("cells").EnumerateArray());
    }

    [Fact]
    public async Task Comparison_OfOnePlanTwiceWithoutALabel_IsRefused()
    {
        var request = Example();
        request["ratePlans"]![0]!.AsObject().Remove("label");
        request["ratePlans"]![1]!.AsObject().Remove("label");
        Assert.Equal(["#/ratePlans/1"], await Pointers(request));
    }

    private static JsonObject Example()
    {
        var request = (JsonObject)ApiSchemas.Example("comparison-choices");
        request["behaviours"] = new JsonArray("leastCostKnownAhead");
        return request;
    }

    private async Task<string?[]> Pointers(JsonObject request) =>
        [.. (await ServiceApplication.ProblemOf(
            await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request)), HttpStatusCode.UnprocessableEntity))
            .GetProperty("errors").EnumerateArray().Select(e => e.GetProperty("pointer").GetString())];

    private async Task<JsonElement> Answer(JsonObject request)
    {
        var response = await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        return JsonElement.Parse(text);
    }
}
