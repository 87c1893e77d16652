using System.Text;
using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>One or a few random wrongs done to a document or to what is given beside it.</summary>
internal static class Mutation
{
    private static readonly string[] Texts =
    [
        "", " ", "0", "-1", "null", "02-30", "02-29", "13-01", "2026-02-30", "0000-01-01", "9999-12-31", "2026-11-01T01:30", "24:00", "25:00", "12:60", "period 0", "season 0",
        "Energy 1", "second", "America/Chicago", "Mars/Olympus", "USD", "usd", "month", "day", "year", "halfUp", "line", "none", "\u0000", "\ud83d\ude97", "../../etc/passwd", "&a", "*a", "!!int 3",
    ];

    private static readonly decimal[] Numbers = [0, 1, -1, 2, 0.5m, 29, 30, 31, 100, 1e-6m, 1e-7m, -5, 1000, 1e6m, 1e12m, 1e27m, decimal.MaxValue, 0.1234567890123456789012345678m];

    /// <summary>The document with some of its nodes changed, as text; now and then the text itself is damaged.</summary>
    public static string OfDocument(JsonObject document, Draw draw)
    {
        var plan = document.DeepClone().AsObject();
        for (var times = draw.Between(1, 3); times > 0; times--)
        {
            Change(plan, draw);
        }

        // What does not begin with a brace is YAML, of which JSON is the flow style.
        var text = (draw.Chance(0.3) ? "# Drawn.\n" : "") + plan.ToJsonString();
        return draw.Chance(0.2) ? Damage(text, draw) : text;
    }

    private static void Change(JsonObject plan, Draw draw)
    {
        var places = Places(plan).ToList();
        var (parent, key) = draw.Of(places);
        switch (draw.Between(0, 8))
        {
            case 0:
                Remove(parent, key);
                break;
            case 1:
                Set(parent, key, JsonValue.Create(draw.Of(Texts)));
                break;
            case 2:
            case 3:
                Set(parent, key, JsonValue.Create(draw.Of(Numbers)));
                break;
            case 4:
                Set(parent, key, draw.Of<Func<JsonNode?>>(() => null, () => new JsonArray(), () => new JsonObject(), () => JsonValue.Create(true), () => JsonValue.Create(false))());
                break;
            case 5:
                // Something from another place of the document.
                var (other, from) = draw.Of(places);
                Set(parent, key, Get(other, from)?.DeepClone());
                break;
            case 6 when parent is JsonArray list:
                list.Add(Get(parent, key)?.DeepClone());
                break;
            case 7 when parent is JsonObject item:
                item[draw.Of("extra", "$ref", "name", "from", "until", "periods", "seasons", "when", "calendar", "per")] = Get(parent, key)?.DeepClone();
                break;
            default:
                // A number of the same kind, a little off.
                var numbers = places.Where(place => Get(place.Parent, place.Key) is JsonValue value && value.GetValueKind() == System.Text.Json.JsonValueKind.Number).ToList();
                if (numbers.Count > 0)
                {
                    (parent, key) = draw.Of(numbers);
                    Set(parent, key, JsonValue.Create(Fields(Get(parent, key)!) * draw.Of(-1, 2, 0.5m, 10, 1.000001m)));
                }

                break;
        }
    }

    private static decimal Fields(JsonNode number)
    {
        var value = decimal.Parse(number.ToJsonString(), System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture);
        return Math.Abs(value) < 1e20m ? value : 1;
    }

    private static string Damage(string text, Draw draw)
    {
        var at = draw.Between(0, text.Length - 1);
        return draw.Between(0, 5) switch
        {
            0 => text[..at],
            1 => text[..at] + draw.Of("\"", "{", "}", ",", ":", "\\", "\t", "\n", "#", "\ufeff", "1e999", "\ud800") + text[at..],
            2 => text.Remove(at, Math.Min(draw.Between(1, 40), text.Length - at)),
            3 => text + text,
            4 => new StringBuilder().Insert(0, "[", draw.Between(20, 5000)).ToString() + text,
            _ => "x: &a 1\n" + text,
        };
    }

    private static IEnumerable<(JsonNode Parent, object Key)> Places(JsonNode? node) => node switch
    {
        JsonObject item => item.ToList().SelectMany(field => Places(field.Value).Prepend((item, field.Key))),
        JsonArray list => Enumerable.Range(0, list.Count).SelectMany(index => Places(list[index]).Prepend((list, index))),
        _ => [],
    };

    private static JsonNode? Get(JsonNode parent, object key) => key switch
    {
        string name => parent[name],
        int index when index < parent.AsArray().Count => parent[index],
        _ => null,
    };

    private static void Set(JsonNode parent, object key, JsonNode? value)
    {
        if (key is string name)
        {
            parent[name] = value;
        }
        else if ((int)key < parent.AsArray().Count)
        {
            parent[(int)key] = value;
        }
    }

    private static void Remove(JsonNode parent, object key)
    {
        if (key is string name)
        {
            parent.AsObject().Remove(name);
        }
        else if ((int)key < parent.AsArray().Count)
        {
            parent.AsArray().RemoveAt((int)key);
        }
    }

    /// <summary>Readings and the rest, with something wrong or at a limit.</summary>
    public static Readings OfReadings(Question question, Draw draw)
    {
        var readings = new Readings(
            question.Start, question.Interval, [.. question.Import.Select(energy => energy / 1e6)], question.Export is { } export ? [.. export.Select(energy => energy / 1e6)] : null, question);
        for (var times = draw.Between(1, 2); times > 0; times--)
        {
            readings = Changed(readings, draw);
        }

        return readings;
    }

    private static Readings Changed(Readings readings, Draw draw)
    {
        double strange = draw.Of(double.NaN, double.PositiveInfinity, -1, -1e-9, 1e-7, 5e-7, 0.0000005, 1e9, 1e300, 1_000_000, 0.1 + 0.2);
        var at = draw.Between(0, Math.Max(0, readings.Kwh.Length - 1));
        var beside = readings.Beside;
        switch (draw.Between(0, 12))
        {
            case 0 when readings.Kwh.Length > 0:
                return readings with { Kwh = [.. readings.Kwh[..at], strange, .. readings.Kwh[(at + 1)..]] };
            case 1:
                return readings with { Kwh = readings.Kwh[..draw.Between(0, Math.Min(2, readings.Kwh.Length))] };
            case 2:
                return readings with { Interval = draw.Of(Duration.Zero, Duration.FromMinutes(-15), Duration.FromSeconds(90), Duration.FromMinutes(7), Duration.FromMinutes(1), Duration.FromHours(23), Duration.FromDays(1), Duration.FromDays(2), Duration.FromNanoseconds(1)) };
            case 3:
                return readings with { Start = draw.Of(Instant.FromUtc(-9000, 1, 1, 0, 0), Instant.FromUtc(9990, 1, 1, 0, 0), Instant.FromUtc(1899, 12, 31, 0, 0), Instant.FromUtc(1970, 1, 1, 0, 0), Instant.FromUtc(2199, 12, 31, 0, 0), readings.Start + Duration.FromSeconds(30), readings.Start + Duration.FromMilliseconds(1), readings.Start + Duration.FromMinutes(7)) };
            case 4:
                return readings with { ExportKwh = [.. readings.Kwh.Take(at), strange] };
            case 5:
                return readings with { Beside = beside with { Choices = new Dictionary<string, string> { [draw.Of("option 0", "nothing", "")] = draw.Of("a", "b", "z", "") } } };
            case 6:
                var from = readings.Start.InUtc().LocalDateTime;
                return readings with { Beside = beside with { Events = [.. beside.Events, new(draw.Of("event 0", "event 1", "nothing"), from, from.PlusMinutes(draw.Of(-60, 0, 1, 60, 3000)), draw.Of<decimal?>(null, -1, 0, 1e12m), draw.Of(0m, -1e12m))] } };
            case 7:
                return readings with { Beside = beside with { Prices = new Dictionary<string, HourlyPrices> { ["day ahead"] = new(readings.Start, draw.Of(Duration.Zero, Duration.FromHours(1), Duration.FromDays(3), Duration.FromMinutes(-5)), draw.Of<decimal?[]>([], [null], [0.1m], [1e20m, null, -1e20m])) } } };
            case 8:
                return readings with { Beside = beside with { ServiceKw = draw.Of(-1m, 0m, 0.05m, 1e12m, 7.5m) } };
            case 9:
                var first = readings.Start.InUtc().Date;
                return readings with { Beside = beside with { ReadingDates = draw.Of<List<LocalDate>>([], [first, first], [first.PlusDays(2), first.PlusDays(1)], [LocalDate.MinIsoValue, LocalDate.MaxIsoValue], [first]) } };
            case 10:
                return readings with { Beside = beside with { Carried = beside.Carried with { Peaks = [new(draw.Of("Demand 1", "nothing", ""), draw.Of(new YearMonth(2026, 1), new YearMonth(-5, 1), new YearMonth(9999, 12)), draw.Of(-1m, 0m, 1e20m))] } } };
            case 11:
                return readings with { Beside = beside with { Carried = beside.Carried with { BankedEnergy = new Dictionary<string, long> { [draw.Of("", "period 0", "nothing")] = draw.Of(-1, 0, long.MaxValue, 5_000_000) } } } };
            default:
                return readings with { Beside = beside with { Carried = beside.Carried with { BankedMoney = draw.Of(-5m, 0m, 1e27m, decimal.MaxValue) } } };
        }
    }
}

/// <summary>Readings as they come in, before anybody has looked at them.</summary>
internal sealed record Readings(Instant Start, Duration Interval, double[] Kwh, double[]? ExportKwh, Question Beside);
