using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Tests.Requests;

/// <summary>A good schedule request to change.</summary>
internal static class RequestText
{
    public static JsonObject Schedule() => (JsonObject)JsonNode.Parse("""
        {
          "asOf": "2026-01-14T17:30:00-06:00",
          "timeZone": "America/Chicago",
          "vehicle": { "usableEnergyKwh": 60, "onBoardChargerKw": 11.5, "consumptionKwhPer100Km": 15.5 },
          "supply": { "voltageV": 240, "breakerA": 40 },
          "plugIn": { "stateOfCharge": 0.42 },
          "calendar": { "trips": [ { "departure": "2026-01-15T07:30", "return": "2026-01-15T18:00", "distanceKm": 64 } ] },
          "ratePlan": "example-power-day-and-night",
          "weather": { "temperatureC": 5 }
        }
        """)!;

    public static JsonObject Set(this JsonObject request, string path, string json)
    {
        var steps = path.Split('/');
        JsonNode at = request;
        foreach (var step in steps)
        {
            at = at is JsonArray array ? array[int.Parse(step, System.Globalization.CultureInfo.InvariantCulture)]! : at.AsObject()[step] ?? Added(at, step);
        }

        at.ReplaceWith(JsonNode.Parse(json));
        return request;
    }

    private static JsonNode Added(JsonNode parent, string name)
    {
        var member = JsonValue.Create("");
        parent[name] = member;
        return member;
    }

    public static Reading<ScheduleRequest> Read(this JsonObject request) => Read(request.ToJsonString());

    public static Reading<ScheduleRequest> Read(string json) => ScheduleRequestReader.Read(JsonText.Read(json).Value);

    public static ScheduleRequest Good(this JsonObject request)
    {
        var reading = request.Read();
        Assert.True(reading.IsRead, string.Join("; ", reading.Faults));
        return reading.Value;
    }

    public static Fault OnlyFault(this JsonObject request) => Assert.Single(request.Read().Faults);
}
