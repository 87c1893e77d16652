using System.Globalization;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;

namespace ScheduleOpt.SecondBiller;

/// <summary>Fields of a document by name, in the few types that a rate plan has.</summary>
internal static class Fields
{
    public static IEnumerable<JsonObject> List(this JsonObject node, string field) =>
        node[field] is JsonArray list ? list.Select(item => item!.AsObject()) : [];

    public static JsonObject? Child(this JsonObject node, string field) => node[field] as JsonObject;

    public static string? Text(this JsonObject node, string field) => node[field]?.GetValue<string>();

    public static string[]? Names(this JsonObject node, string field) =>
        node[field] is JsonArray list ? [.. list.Select(item => item!.GetValue<string>())] : null;

    public static int[]? Integers(this JsonObject node, string field) =>
        node[field] is JsonArray list ? [.. list.Select(item => (int)Decimal(item!))] : null;

    public static bool Flag(this JsonObject node, string field) => node[field]?.GetValue<bool>() ?? false;

    public static decimal? Number(this JsonObject node, string field) => node[field] is { } value ? Decimal(value) : null;

    public static int? Integer(this JsonObject node, string field) => (int?)node.Number(field);

    public static LocalDate? Date(this JsonObject node, string field) =>
        node.Text(field) is { } text ? LocalDatePattern.Iso.Parse(text).Value : null;

    public static AnnualDate MonthAndDay(this JsonObject node, string field) => AnnualDatePattern.Iso.Parse(node.Text(field)!).Value;

    /// <summary>Minute of the day; 24:00 is 1440.</summary>
    public static int Minute(this JsonObject node, string field)
    {
        var text = node.Text(field)!;
        return int.Parse(text[..2], CultureInfo.InvariantCulture) * 60 + int.Parse(text[3..], CultureInfo.InvariantCulture);
    }

    public static LocalDateTime DateTime(this JsonObject node, string field) =>
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Parse(node.Text(field)!).Value;

    /// <summary>"Money, prices and percentages are decimal numbers, never binary fractions."</summary>
    public static decimal Decimal(JsonNode value) =>
        decimal.Parse(value.ToJsonString(), NumberStyles.Float, CultureInfo.InvariantCulture);
}
