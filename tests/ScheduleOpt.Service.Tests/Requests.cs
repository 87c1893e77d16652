using System.Globalization;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests;

/// <summary>Requests to start from: those of the documentation.</summary>
internal static class Requests
{
    public static JsonObject Schedule() => (JsonObject)ApiSchemas.Example("schedule");

    public static JsonObject Bill() => (JsonObject)ApiSchemas.Example("bill");

    /// <summary>Export, day-ahead prices and a credit bank.</summary>
    public static JsonObject SolarBill() => (JsonObject)ApiSchemas.Example("bill-solar-home");

    /// <summary>A choice, a critical peak and a past peak.</summary>
    public static JsonObject PeakBill() => (JsonObject)ApiSchemas.Example("bill-critical-peak");

    /// <summary>A schedule on day-ahead prices.</summary>
    public static JsonObject PricedSchedule() => (JsonObject)ApiSchemas.Example("schedule-hourly-prices");

    /// <summary>Puts a value at a path such as <c>cars/0/name</c>; objects on the way that are not there are made.</summary>
    public static void Set(JsonNode root, string path, JsonNode? value)
    {
        var (at, steps) = (root, path.Split('/'));
        foreach (var step in steps[..^1])
        {
            at = at is JsonArray array ? array[Index(step)]! : at[step] ?? (at[step] = new JsonObject());
        }

        if (at is JsonArray last)
        {
            last[Index(steps[^1])] = value;
        }
        else
        {
            at[steps[^1]] = value;
        }
    }

    public static HttpContent Json(JsonNode body) => Json(body.ToJsonString());

    public static HttpContent Json(string body) => Json(Encoding.UTF8.GetBytes(body));

    public static HttpContent Json(byte[] body) =>
        new ByteArrayContent(body) { Headers = { ContentType = new MediaTypeHeaderValue("application/json") } };

    private static int Index(string step) => int.Parse(step, CultureInfo.InvariantCulture);
}
