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

    public static HttpContent Json(JsonNode body) => Json(body.ToJsonString());

    public static HttpContent Json(string body) => Json(Encoding.UTF8.GetBytes(body));

    public static HttpContent Json(byte[] body) =>
        new ByteArrayContent(body) { Headers = { ContentType = new MediaTypeHeaderValue("application/json") } };
}
