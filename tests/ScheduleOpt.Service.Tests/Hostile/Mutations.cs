using System.Text;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Service.Tests.Hostile;

/// <summary>Ways to spoil a good request, each drawn with a seed. Every one of them must be refused.</summary>
internal static class Mutations
{
    private static readonly string[] NotNumbers = ["\"12\"", "null", "true", "[]", "{}", "1e999", "-1e999", "-1", "1e18", "\"NaN\""];

    private static readonly string[] RequiredNumbers =
        ["vehicle.usableEnergyKwh", "vehicle.onBoardChargerKw", "vehicle.consumptionKwhPer100Km", "supply.breakerA", "supply.voltageV", "plugIn.stateOfCharge"];

    private static readonly string[] Objects = ["vehicle", "supply", "plugIn", "calendar", "weather", "options"];

    private static readonly string[] Required =
    [
        "asOf", "timeZone", "vehicle", "supply", "plugIn", "calendar", "ratePlan", "weather", "vehicle.usableEnergyKwh",
        "vehicle.onBoardChargerKw", "supply.voltageV", "supply.breakerA", "plugIn.stateOfCharge", "calendar.trips.0.departure",
        "calendar.trips.0.return", "calendar.trips.0.distanceKm",
    ];

    /// <summary>A spoilt request, and the pointer that the answer must name; null where the whole body is at fault.</summary>
    public static (byte[] Body, string? Pointer, string What) Draw(Random random)
    {
        var request = Requests.Schedule();
        switch (random.Next(22))
        {
            case 0:
                return Spoilt(request, Pick(random, Required), null);
            case 1:
                return Spoilt(request, Pick(random, RequiredNumbers), Pick(random, NotNumbers));
            case 2:
                return Spoilt(request, Pick(random, Objects), Pick(random, ["[]", "7", "\"text\"", "null"]));
            case 3:
                return Spoilt(request, "timeZone", Pick(random, ["\"Mars/Olympus\"", "\"\"", "\"america/chicago\"", "\"UTC+01\"", "\"../../etc/passwd\"", "5"]));
            case 4:
                return Spoilt(request, "ratePlan", Pick(random, ["\"none-such\"", "\"\"", "5", "[]", "\"../../x\""]));
            case 5:
                return Spoilt(request, "calendar.trips.0.return", Pick(random, ["\"2026-01-15T07:30\"", "\"2026-01-14T18:00\"", "\"2027-06-01T00:00\""]));
            case 6:
                return Spoilt(request, "asOf", Pick(random, ["\"yesterday\"", "\"2026-02-30T10:00\"", "\"2026-01-14T17:30:00+01:00\"", "\"9999-12-31T23:59\"", "\"0001-01-01T00:00\"", "20260114", "\"2026-01-14\""]));
            case 7:
                request["calendar"]!["trips"]!.AsArray().Add(JsonNode.Parse(
                    $$"""{ "departure": "2026-01-17T{{random.Next(10, 24)}}:15", "return": "2026-01-18T08:00", "distanceKm": 9 }"""));
                return (Bytes(request), "#/calendar/trips/2", "overlapping trips");
            case 8:
                return Spoilt(request, "weather", Pick(random, ["{}", """{"temperatureC":61}""", """{"temperatureC":5,"temperatureF":41}""", """{"hourly":{"start":"2026-01-14T00:00","temperatureC":[]}}""", """{"csv":"no header"}""", """{"epw":"x"}""", """{"monthly":{"lowC":[1],"highC":[2]}}"""]));
            case 9:
                return Spoilt(request, "calendar", Pick(random, ["{}", """{"ics":""}""", """{"ics":"BEGIN:VCALENDAR\r\nEND:VCALENDAR"}""", """{"trips":[],"ics":"x"}""", """{"ics":"BEGIN:VEVENT"}""", """{"trips":5}"""]));
            case 10:
                return Unknown(request, random);
            case 11:
                return Duplicated(request);
            case 12:
                return (Encoding.UTF8.GetBytes(request.ToJsonString()[..random.Next(1, 200)]), null, "cut off");
            case 13:
                return InvalidUtf8(request, random);
            case 14:
                return Nested(request, random.Next(40, 50_000));
            case 15:
                return (new byte[random.Next(1, 11) * 1024 * 1024], null, "megabytes of zeros");
            case 16:
                request["calendar"]!["trips"] = JsonNode.Parse($"[{string.Join(',', Enumerable.Repeat("0", random.Next(2001, 400_000)))}]");
                return (Bytes(request), "#/calendar/trips", "a huge array");
            case 17:
                return (Encoding.UTF8.GetBytes(request.ToJsonString().Replace("0.42", "NaN", StringComparison.Ordinal)), null, "NaN as a word");
            case 18:
                request["vehicle"]!["minimumStateOfCharge"] = 0.85;
                return (Bytes(request), "#/vehicle/minimumStateOfCharge", "minimum above the ordinary limit");
            case 19:
                request["plugIn"]!["at"] = Pick(random, ["2026-01-14T17:29:00-06:00", "2026-01-15T12:00", "2026-03-14T12:00"]);
                return (Bytes(request), "#/plugIn", "plugged in before asOf, while away, or much later");
            case 20:
                return Spoilt(request, "calendar.trips.0.recurrence", Pick(random, ["\"FREQ=SECONDLY\"", "\"FREQ=MINUTELY;COUNT=9\"", "\"DAILY\"", "\"\"", "\"FREQ=DAILY;INTERVAL=0\"", "\"FREQ=DAILY;BYHOUR=1,2,3\"", "7"]));
            default:
                return Spoilt(request, "options", Pick(random, ["""{"gridMinutes":7}""", """{"horizonDays":32}""", """{"tripConfidence":1}""", """{"shortfallOrder":"random"}""", """{"targetStateOfCharge":1.1}""", """{"usedSoFarKwh":-1}""", """{"unit":"furlong"}"""]));
        }
    }

    private static T Pick<T>(Random random, T[] from) => from[random.Next(from.Length)];

    private static byte[] Bytes(JsonNode node) => Encoding.UTF8.GetBytes(node.ToJsonString());

    // The value is spliced in as text, so that it may be something no JSON library would write.
    private static (byte[], string?, string) Spoilt(JsonObject request, string path, string? value)
    {
        var steps = path.Split('.');
        JsonNode at = request;
        foreach (var step in steps[..^1])
        {
            at = at is JsonArray array ? array[int.Parse(step, System.Globalization.CultureInfo.InvariantCulture)]! : at[step]!;
        }

        at.AsObject().Remove(steps[^1]);
        if (value is not null)
        {
            at[steps[^1]] = "@@here@@";
        }

        var text = request.ToJsonString().Replace("\"@@here@@\"", value, StringComparison.Ordinal);
        var pointer = "#/" + string.Join('/', value is null && steps[^1].StartsWith("distance", StringComparison.Ordinal) ? steps[..^1] : steps);
        return (Encoding.UTF8.GetBytes(text), pointer, $"{path} = {value ?? "missing"}");
    }

    private static (byte[], string?, string) Unknown(JsonObject request, Random random)
    {
        var parent = Pick(random, Objects);
        var name = Pick(random, ["batteryLevel", "__proto__", "a/b~c", "Vehicle", "ünïcode", new string('x', 5000)]);
        request[parent]![name] = 1;
        return (Bytes(request), $"#/{parent}/", $"unknown field in {parent}");
    }

    private static (byte[], string?, string) Duplicated(JsonObject request)
    {
        var text = request.ToJsonString().Replace("\"usableEnergyKwh\":60", "\"usableEnergyKwh\":60,\"usableEnergyKwh\":6", StringComparison.Ordinal);
        return (Encoding.UTF8.GetBytes(text), "#/vehicle/usableEnergyKwh", "a field twice");
    }

    private static (byte[], string?, string) InvalidUtf8(JsonObject request, Random random)
    {
        if (random.Next(2) == 0)
        {
            return (Encoding.UTF8.GetBytes(request.ToJsonString().Replace("The lake", "\\ud800", StringComparison.Ordinal)), null, "half a surrogate pair");
        }

        var bytes = Bytes(request);
        bytes[random.Next(1, bytes.Length)] = Pick<byte>(random, [0xFF, 0xC0, 0x80]);
        return (bytes, null, "bytes that are not UTF-8");
    }

    private static (byte[], string?, string) Nested(JsonObject request, int depth)
    {
        var text = request.ToJsonString().Replace("0.42", new string('[', depth) + new string(']', depth), StringComparison.Ordinal);
        return (Encoding.UTF8.GetBytes(text), null, $"nested {depth} deep");
    }
}
