using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.Demo;

namespace ScheduleOpt.Service.Tests.Schedules;

/// <summary>Small households: running rules, a finish margin, warming or the taper cost no car what charging on arrival would give it, nor the schedule its own check.</summary>
public sealed class NoWorseThanOnArrivalTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    // One stay in which the least length of a window stores more than there is room for.
    private const string ShortTopUp = """
        {
          "asOf": "2026-01-14T17:45", "timeZone": "America/Chicago", "ratePlan": "example-power-day-and-night", "weather": { "temperatureC": 15 },
          "vehicle": { "usableEnergyKwh": 60, "onBoardChargerKw": 11, "consumptionKwhPer100Km": 16 },
          "supply": { "voltageV": 240, "breakerA": 50 },
          "plugIn": { "stateOfCharge": 0.8 },
          "calendar": { "trips": [
            { "departure": "2026-01-15T07:00", "return": "2026-01-15T07:30", "distanceKm": 3 },
            { "departure": "2026-01-15T17:00", "return": "2026-01-15T18:00", "distanceKm": 60 },
            { "departure": "2026-01-16T07:00", "return": "2026-01-16T17:00", "distanceKm": 60 } ] },
          "options": { "explain": false, "horizonDays": 2, "targetStateOfCharge": 0.8, "running": { "leastOnMinutes": 15 }, "finishMarginMinutes": 60 }
        }
        """;

    [Fact]
    public async Task LeastLengthOfAWindow_LeavesNoTripShort()
    {
        var request = JsonNode.Parse(DemoHousehold.TonightJson)!.AsObject();
        request["plugIn"]!["stateOfCharge"] = 0.8;
        request["supply"]!["breakerA"] = 50;
        request["options"]!["explain"] = false;
        request["options"]!["targetStateOfCharge"] = 0.8;
        request["options"]!["running"] = new JsonObject { ["leastOnMinutes"] = 60 };
        Assert.Equal(0, (await Answer(request)).GetProperty("tripShortfallKwh").GetDouble());
    }

    [Fact]
    public async Task ThreeKilometresOnAnAmpleBattery_AreNoTripShortfall() =>
        Assert.Equal(0, (await Answer(JsonNode.Parse(ShortTopUp)!.AsObject())).GetProperty("tripShortfallKwh").GetDouble());

    [Fact]
    public async Task FullBatteryAtDeparture_IsReachedDespiteTheTaper()
    {
        var request = JsonNode.Parse(ShortTopUp)!.AsObject();
        request["supply"]!["breakerA"] = 20;
        request["plugIn"]!["stateOfCharge"] = 0.5;
        request["calendar"]!["trips"] = JsonNode.Parse("""
            [ { "departure": "2026-01-15T12:00", "return": "2026-01-15T17:00", "distanceKm": 60, "targetStateOfCharge": 1 },
              { "departure": "2026-01-16T12:00", "return": "2026-01-16T17:00", "distanceKm": 60 } ]
            """);
        request["options"] = JsonNode.Parse("""{ "explain": false, "horizonDays": 2 }""");
        Assert.Equal("ready", (await Answer(request)).GetProperty("outcome").GetString());
    }

    // Without the taper the stay is long enough for a full battery, with it not: less is taken, and paid, than was planned.
    [Fact]
    public async Task BoundCost_IsNotAboveTheCostOfWhatTheTaperLeavesShort()
    {
        var request = JsonNode.Parse(ShortTopUp)!.AsObject();
        request["supply"]!["breakerA"] = 20;
        request["plugIn"]!["stateOfCharge"] = 0.9;
        request["calendar"]!["trips"] = JsonNode.Parse("""
            [ { "departure": "2026-01-14T19:40", "return": "2026-01-16T17:00", "distanceKm": 60, "targetStateOfCharge": 1 } ]
            """);
        request["options"] = JsonNode.Parse("""{ "explain": false, "horizonDays": 1 }""");
        var answer = await Answer(request);
        Assert.Equal("short", answer.GetProperty("outcome").GetString());
        Assert.True(Amount(answer, "boundCost") <= Amount(answer, "cost"));
    }

    // It stands eight hours at a strong unit away and fourteen at home before the second departure.
    [Fact]
    public async Task TaperAtAStop_IsMadeUpThereOrAtHome()
    {
        var request = JsonNode.Parse(ShortTopUp)!.AsObject();
        request["vehicle"]!["usableEnergyKwh"] = 20;
        request["supply"]!["breakerA"] = 40;
        request["plugIn"]!["stateOfCharge"] = 0.6;
        request["calendar"]!["trips"] = JsonNode.Parse("""
            [ { "departure": "2026-01-15T07:00", "return": "2026-01-15T17:00", "legs": [
                { "distanceKm": 20, "stop": { "from": "2026-01-15T08:00", "until": "2026-01-15T16:00", "chargingPowerKw": 50, "pricePerKwh": 0.05 } },
                { "distanceKm": 20 } ] },
              { "departure": "2026-01-16T07:00", "return": "2026-01-16T12:00", "distanceKm": 20 } ]
            """);
        request["options"] = JsonNode.Parse("""{ "explain": false, "horizonDays": 2, "targetStateOfCharge": 0.8 }""");
        Assert.Equal("ready", (await Answer(request)).GetProperty("outcome").GetString());
    }

    [Fact]
    public async Task WarmingOnASharedCircuit_LeavesAScheduleThatPassesItsCheck() => AssertChecked(await Answer(JsonNode.Parse("""
        {
          "asOf": "2026-01-14T17:45", "timeZone": "America/Chicago", "ratePlan": "example-power-day-and-night", "weather": { "temperatureC": 0 },
          "sharedCircuit": { "currentA": 24 },
          "cars": [
            { "name": "a",
              "vehicle": { "usableEnergyKwh": 60, "onBoardChargerKw": 11, "consumptionKwhPer100Km": 16 }, "supply": { "voltageV": 240, "breakerA": 20 },
              "plugIn": { "stateOfCharge": 0.3 }, "calendar": { "trips": [
                { "departure": "2026-01-15T07:00", "return": "2026-01-15T17:00", "distanceKm": 60 },
                { "departure": "2026-01-16T07:00", "return": "2026-01-16T17:00", "distanceKm": 60 } ] } },
            { "name": "b",
              "vehicle": { "usableEnergyKwh": 60, "onBoardChargerKw": 11, "consumptionKwhPer100Km": 16 }, "supply": { "voltageV": 240, "breakerA": 20 },
              "plugIn": { "stateOfCharge": 0.3 }, "calendar": { "trips": [
                { "departure": "2026-01-15T05:30", "return": "2026-01-15T17:00", "distanceKm": 60 },
                { "departure": "2026-01-16T05:30", "return": "2026-01-16T17:00", "distanceKm": 60 } ] } } ],
          "options": { "explain": false, "horizonDays": 2, "targetStateOfCharge": 0.8, "running": { "adjustable": true }, "warmUp": { "minutes": 30, "energyKwh": 1 } }
        }
        """)!.AsObject()));

    [Fact]
    public async Task FinishMarginBesideALeastLength_LeavesAScheduleThatPassesItsCheck() => AssertChecked(await Answer(JsonNode.Parse("""
        {
          "asOf": "2026-03-08T01:45:00", "timeZone": "America/Chicago", "ratePlan": "example-power-standard", "weather": { "temperatureC": 15 },
          "vehicle": { "usableEnergyKwh": 77, "onBoardChargerKw": 22, "consumptionKwhPer100Km": 12 },
          "supply": { "voltageV": 400, "phases": 3, "breakerA": 15 },
          "plugIn": { "stateOfCharge": 0.8 },
          "calendar": { "trips": [
            { "departure": "2026-03-08T06:10", "return": "2026-03-08T11:10", "distanceKm": 64 },
            { "departure": "2026-03-09T01:40", "return": "2026-03-09T10:40", "distanceKm": 3 },
            { "departure": "2026-03-10T00:30", "return": "2026-03-10T05:30", "distanceKm": 30 } ] },
          "options": { "explain": false, "horizonDays": 2, "targetStateOfCharge": 0.8, "running": { "leastOnMinutes": 30 }, "finishMarginMinutes": 60 }
        }
        """)!.AsObject()));

    private static decimal Amount(JsonElement answer, string name) =>
        decimal.Parse(answer.GetProperty(name).GetProperty("amount").GetString()!, System.Globalization.CultureInfo.InvariantCulture);

    private static void AssertChecked(JsonElement answer) =>
        Assert.DoesNotContain(answer.GetProperty("warnings").EnumerateArray(), w => w.GetString()!.Contains("own check", StringComparison.Ordinal));

    private async Task<JsonElement> Answer(JsonObject request)
    {
        var response = await service.CreateClient().PostAsync("/v1/schedules", Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        return JsonElement.Parse(text);
    }
}
