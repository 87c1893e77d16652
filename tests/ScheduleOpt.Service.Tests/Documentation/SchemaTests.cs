using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests.Documentation;

/// <summary>The hand-written schemas are held against what is read and what is answered, in both directions.</summary>
public sealed class SchemaTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    private static readonly JsonNode Components = ApiSchemas.Json()["components"]!;

    [Theory]
    [InlineData("schedule", "ScheduleRequest", "ScheduleAnswer")]
    [InlineData("comparison", "ComparisonRequest", "ComparisonAnswer")]
    [InlineData("bill", "BillRequest", "BillAnswer")]
    [InlineData("bill-solar-home", "BillRequest", "BillAnswer")]
    [InlineData("bill-critical-peak", "BillRequest", "BillAnswer")]
    [InlineData("schedule-hourly-prices", "ScheduleRequest", "ScheduleAnswer")]
    [InlineData("schedule-two-cars", "ScheduleRequest", "HouseholdAnswer")]
    [InlineData("comparison-choices", "ComparisonRequest", "ComparisonAnswer")]
    [InlineData("comparison-decision", "ComparisonRequest", "ComparisonAnswer")]
    [InlineData("comparison-winters", "ComparisonRequest", "ComparisonAnswer")]
    public async Task RequestAndAnswer_OfEachExample_KeepTheirSchemas(string example, string request, string answer)
    {
        var body = ApiSchemas.Example(example);
        AssertKeeps(request, body.ToJsonString());
        var response = await service.CreateClient().PostAsync($"/v1/{example.Split('-')[0]}s", Requests.Json(body));
        AssertKeeps(answer, await response.Content.ReadAsStringAsync());
    }

    [Theory]
    [InlineData("/v1/rate-plans", "RatePlanList")]
    [InlineData("/v1/rate-plans/sample-electric-all-electric-home", "RatePlanDocument")]
    [InlineData("/health/live", "Health")]
    [InlineData("/health/ready", "Health")]
    public async Task Answer_ToGet_KeepsItsSchema(string path, string schema) =>
        AssertKeeps(schema, await service.CreateClient().GetStringAsync(path));

    [Fact]
    public async Task Request_WithARatePlanDocument_KeepsItsSchema()
    {
        var request = Requests.Bill();
        request["ratePlan"] = JsonNode.Parse(await service.CreateClient().GetStringAsync("/v1/rate-plans/example-power-three-seasons"));
        AssertKeeps("BillRequest", request.ToJsonString());
        Assert.True((await service.CreateClient().PostAsync("/v1/bills", Requests.Json(request))).IsSuccessStatusCode);
    }

    [Fact]
    public async Task Problem_OfAFaultyRequest_KeepsItsSchema() => AssertKeeps(
        "Problem",
        await (await service.CreateClient().PostAsync("/v1/schedules", Requests.Json("{}"))).Content.ReadAsStringAsync());

    [Theory]
    [InlineData("ScheduleRequest", "/v1/schedules")]
    [InlineData("ComparisonRequest", "/v1/comparisons")]
    [InlineData("BillRequest", "/v1/bills")]
    public async Task Field_OfASchema_IsTheReadersAndTheOtherWayRound(string schema, string path)
    {
        // An unknown field is answered with the fields that are known: the reader's own list.
        var response = await service.CreateClient().PostAsync(path, Requests.Json("""{"no-such-field":1}"""));
        var known = JsonElement.Parse(await response.Content.ReadAsStringAsync()).GetProperty("errors").EnumerateArray()
            .Select(e => e.GetProperty("detail").GetString()!)
            .Single(d => d.Contains("Known:", StringComparison.Ordinal))
            .Split("Known: ")[1].TrimEnd('.').Split(", ");
        Assert.Equal(Components["schemas"]![schema]!["properties"]!.AsObject().Select(p => p.Key).Order(), known.Order());
    }

    [Theory]
    [InlineData("Vehicle", "vehicle")]
    [InlineData("Supply", "supply")]
    [InlineData("PlugIn", "plugIn")]
    [InlineData("Calendar", "calendar")]
    [InlineData("Trip", "calendar/trips/0")]
    [InlineData("Weather", "weather")]
    [InlineData("HouseLoad", "houseLoad")]
    [InlineData("ScheduleOptions", "options")]
    [InlineData("ChargingConstants", "vehicle/constants")]
    [InlineData("HourlyWeather", "weather/hourly")]
    [InlineData("MonthlyWeather", "weather/monthly")]
    [InlineData("Leg", "calendar/trips/0/legs/0")]
    [InlineData("Stop", "calendar/trips/0/legs/0/stop")]
    public async Task Field_OfAnInnerSchema_IsTheReadersAndTheOtherWayRound(string schema, string at)
    {
        var request = Requests.Schedule();
        var spoilt = JsonNode.Parse("""{"no-such-field":1}""")!;
        switch (at)
        {
            case "calendar/trips/0":
                spoilt["departure"] = "2026-01-15T07:30";
                request["calendar"] = new JsonObject { ["trips"] = new JsonArray(spoilt) };
                break;
            case "calendar/trips/0/legs/0":
            case "calendar/trips/0/legs/0/stop":
                var leg = at.EndsWith("stop", StringComparison.Ordinal) ? new JsonObject { ["stop"] = spoilt } : spoilt;
                request["calendar"] = new JsonObject
                {
                    ["trips"] = new JsonArray(new JsonObject
                    {
                        ["departure"] = "2026-01-15T07:30",
                        ["return"] = "2026-01-15T17:30",
                        ["legs"] = new JsonArray(leg, new JsonObject { ["distanceKm"] = 5 }),
                    }),
                };
                break;
            case "vehicle/constants":
                request["vehicle"]!["constants"] = spoilt;
                break;
            case "weather/hourly" or "weather/monthly":
                request["weather"] = new JsonObject { [at.Split('/')[1]] = spoilt };
                break;
            default:
                request[at] = spoilt;
                break;
        }

        var response = await service.CreateClient().PostAsync("/v1/schedules", Requests.Json(request));
        var error = JsonElement.Parse(await response.Content.ReadAsStringAsync()).GetProperty("errors").EnumerateArray()
            .Single(e => e.GetProperty("pointer").GetString() == $"#/{at}/no-such-field");
        var known = error.GetProperty("detail").GetString()!.Split("Known: ")[1].TrimEnd('.').Split(", ");
        Assert.Equal(Components["schemas"]![schema]!["properties"]!.AsObject().Select(p => p.Key).Order(), known.Order());
    }

    [Theory]
    [InlineData("Car", "cars/0")]
    [InlineData("CarPrevious", "cars/0/previous")]
    [InlineData("SharedCircuit", "sharedCircuit")]
    [InlineData("Solar", "solar")]
    [InlineData("Carbon", "carbon")]
    [InlineData("EmissionForecast", "carbon/gramsPerKwh")]
    [InlineData("Running", "options/running")]
    [InlineData("NoCharging", "options/noCharging/0")]
    [InlineData("DailyCurrentLimit", "options/currentLimits/0")]
    [InlineData("WarmUp", "options/warmUp")]
    [InlineData("BatteryCare", "options/batteryCare")]
    [InlineData("Previous", "options/previous")]
    [InlineData("PreviousWindow", "options/previous/windows/0")]
    [InlineData("ChargingProfileChoice", "options/chargingProfile")]
    public async Task Field_OfAHouseholdsSchema_IsTheReadersAndTheOtherWayRound(string schema, string at)
    {
        var spoilt = JsonNode.Parse("""{"no-such-field":1}""")!;
        foreach (var step in at.Split('/').Reverse())
        {
            spoilt = step == "0" ? new JsonArray(spoilt) : new JsonObject { [step] = spoilt };
        }

        var response = await service.CreateClient().PostAsync("/v1/schedules", Requests.Json(spoilt));
        var error = JsonElement.Parse(await response.Content.ReadAsStringAsync()).GetProperty("errors").EnumerateArray()
            .Single(e => e.GetProperty("pointer").GetString() == $"#/{at}/no-such-field");
        var known = error.GetProperty("detail").GetString()!.Split("Known: ")[1].TrimEnd('.').Split(", ");
        Assert.Equal(Components["schemas"]![schema]!["properties"]!.AsObject().Select(p => p.Key).Order(), known.Order());
    }

    [Theory]
    [InlineData("ByNight", "byNight")]
    [InlineData("AwayPrice", "awayCharging")]
    [InlineData("CalibrationBills", "calibration")]
    [InlineData("DatedBill", "calibration/bills/0")]
    [InlineData("ComparisonOptions", "options")]
    [InlineData("Panel", "panel")]
    [InlineData("MeteredDemand", "panel/metered")]
    [InlineData("DemandMeterFile", "panel/metered/meterFile")]
    [InlineData("Scenario", "scenario")]
    [InlineData("Override", "scenario/overrides/0")]
    [InlineData("Weather", "weather/0")]
    public async Task Field_OfAComparisonsSchema_IsTheReadersAndTheOtherWayRound(string schema, string at)
    {
        var spoilt = JsonNode.Parse("""{"no-such-field":1}""")!;
        foreach (var step in at.Split('/').Reverse())
        {
            spoilt = step == "0" ? new JsonArray(spoilt) : new JsonObject { [step] = spoilt };
        }

        var response = await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(spoilt));
        var error = JsonElement.Parse(await response.Content.ReadAsStringAsync()).GetProperty("errors").EnumerateArray()
            .Single(e => e.GetProperty("pointer").GetString() == $"#/{at}/no-such-field");
        var known = error.GetProperty("detail").GetString()!.Split("Known: ")[1].TrimEnd('.').Split(", ");
        Assert.Equal(Components["schemas"]![schema]!["properties"]!.AsObject().Select(p => p.Key).Order(), known.Order());
    }

    [Theory]
    [InlineData("ChosenRatePlan", "ratePlan")]
    [InlineData("PriceSeries", "prices/day-ahead")]
    [InlineData("CalledEvent", "events/critical peak/0")]
    [InlineData("CarriedState", "carriedState")]
    [InlineData("PastPeak", "carriedState/peaks/0")]
    [InlineData("BankedEnergy", "carriedState/bankedEnergy/0")]
    [InlineData("MeteredSeries", "export")]
    public async Task Field_OfABillsSchema_IsTheReadersAndTheOtherWayRound(string schema, string at)
    {
        var request = schema == "PriceSeries" ? Requests.SolarBill() : Requests.PeakBill();
        JsonNode made = schema == "ChosenRatePlan" ? new JsonObject { ["id"] = "model-county-peak-aware", ["no-such-field"] = 1 } : new JsonObject { ["no-such-field"] = 1 };
        var steps = at.Split('/');
        foreach (var step in steps.Skip(1).Reverse())
        {
            made = step == "0" ? new JsonArray(made) : new JsonObject { [step] = made };
        }

        request[steps[0]] = made;
        var response = await service.CreateClient().PostAsync("/v1/bills", Requests.Json(request));
        var known = JsonElement.Parse(await response.Content.ReadAsStringAsync()).GetProperty("errors").EnumerateArray()
            .Single(e => e.GetProperty("pointer").GetString() == $"#/{at.Replace(" ", "%20", StringComparison.Ordinal)}/no-such-field")
            .GetProperty("detail").GetString()!.Split("Known: ")[1].TrimEnd('.').Split(", ");
        Assert.Equal(Components["schemas"]![schema]!["properties"]!.AsObject().Select(p => p.Key).Order(), known.Order());
    }

    internal static void AssertKeeps(string schema, string json)
    {
        // The same schemas, standing where JSON Schema itself looks for them.
        var root = new JsonObject { ["$ref"] = $"#/$defs/{schema}", ["$defs"] = Components["schemas"]!.DeepClone() };
        var results = JsonSchema.FromText(root.ToJsonString().Replace("#/components/schemas/", "#/$defs/", StringComparison.Ordinal))
            .Evaluate(JsonElement.Parse(json), new EvaluationOptions { OutputFormat = OutputFormat.List });
        var errors = (results.Details ?? []).Where(d => d.Errors is not null)
            .SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Value}"));
        Assert.True(results.IsValid, string.Join("; ", errors.Take(5)));
    }
}
