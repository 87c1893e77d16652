using System.Text.Json.Nodes;
using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>The rate plans of a request as they stand in it: an id, a document, or an object with either and what the household chose.</summary>
internal static class RatePlanNodes
{
    /// <summary>Every rate plan of a request with its pointer: <c>ratePlan</c>, or each of <c>ratePlans</c>.</summary>
    public static IReadOnlyList<(string Pointer, JsonNode Node)> Of(JsonObject root) => root["ratePlans"] is JsonArray list
        ? [.. list.Select((node, i) => (Pointer: FormattableString.Invariant($"#/ratePlans/{i}"), Node: node)).Where(p => p.Node is not null).Select(p => (p.Pointer, p.Node!))]
        : root["ratePlan"] is { } one ? [("#/ratePlan", one)] : [];

    /// <summary>The zone of a plan's clock; none where it can't be told.</summary>
    public static DateTimeZone? ZoneOf(JsonNode? plan) => IdOf(plan) is { } id
        ? RatePlanLibrary.Find(id)?.Zone
        : DocumentOf(plan)?["timeZone"] is JsonValue zone && zone.TryGetValue<string>(out var name) ? DateTimeZoneProviders.Tzdb.GetZoneOrNull(name) : null;

    /// <summary>The plan; none where it can't be read: the request's reader says why.</summary>
    public static RatePlan? Plan(JsonNode plan)
    {
        if (IdOf(plan) is { } id)
        {
            return RatePlanLibrary.Find(id);
        }

        return DocumentOf(plan) is { } document && RatePlanDocument.Read(document.ToJsonString(), "request") is { IsRead: true } reading ? reading.Value : null;
    }

    /// <summary>The plan in the form that takes choices; it is put in place of what stood there.</summary>
    public static JsonObject WithChoices(JsonNode plan)
    {
        if (plan is JsonObject given && (given.ContainsKey("id") || given.ContainsKey("document")))
        {
            return given;
        }

        var made = new JsonObject { [plan is JsonObject ? "document" : "id"] = plan.DeepClone() };
        plan.ReplaceWith(made);
        return made;
    }

    private static string? IdOf(JsonNode? plan) => plan switch
    {
        JsonValue value when value.TryGetValue<string>(out var id) => id,
        JsonObject given when given["id"] is JsonValue value && value.TryGetValue<string>(out var id) => id,
        _ => null,
    };

    private static JsonObject? DocumentOf(JsonNode? plan) => plan is JsonObject given ? given["document"] as JsonObject ?? given : null;
}
