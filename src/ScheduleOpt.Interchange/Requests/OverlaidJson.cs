using System.Buffers;
using System.Text.Json;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>A JSON object with other values laid over some of its places.</summary>
internal sealed class OverlaidJson(JsonElement root)
{
    private const int MostDepth = 8;

    private readonly Place top = new();

    /// <summary>Lays a value over a place.</summary>
    /// <param name="pointer">The place: a JSON pointer in fragment form. Objects on the way that are not there are made; items of lists must
    /// be there.</param>
    /// <param name="value">The value.</param>
    /// <param name="was">What stood there; none where nothing did.</param>
    /// <returns>The rule that the pointer breaks; none where it keeps all.</returns>
    public string? Lay(string pointer, JsonElement value, out string? was)
    {
        was = null;
        if (!pointer.StartsWith("#/", StringComparison.Ordinal))
        {
            return "Must be a JSON pointer that begins with #/.";
        }

        string[] steps = [.. pointer[2..].Split('/').Select(Unescaped)];
        if (steps.Length > MostDepth || steps.Any(s => s.Length == 0) || steps[0] is "scenario")
        {
            return $"Must lead to a field outside the scenario, at most {MostDepth} deep.";
        }

        var (at, place) = ((JsonElement?)root, top);
        foreach (var step in steps)
        {
            if (place.Value is not null)
            {
                return "Must not lie inside another override.";
            }

            switch (at?.ValueKind)
            {
                case null:
                    break;
                case JsonValueKind.Object:
                    at = at.Value.TryGetProperty(step, out var member) ? member : null;
                    break;
                case JsonValueKind.Array when int.TryParse(step, out var index) && index >= 0 && index < at.Value.GetArrayLength() && step == index.ToString(System.Globalization.CultureInfo.InvariantCulture):
                    at = at.Value[index];
                    break;
                default:
                    return "Must lead through objects, and lists by the position of an item that is there.";
            }

            place = place.At(step);
        }

        if (place.Value is not null || place.HasInner)
        {
            return "Must be overridden once, and not beside a field inside it.";
        }

        place.Value = value;
        was = at?.ValueKind switch
        {
            null => null,
            JsonValueKind.Object => "an object",
            JsonValueKind.Array => "a list",
            _ => JsonField.Shortened(at.Value.GetRawText()),
        };
        return null;
    }

    /// <summary>The object with everything laid over it.</summary>
    public JsonElement Written()
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer))
        {
            Write(json, root, top);
        }

        return JsonElement.Parse(buffer.WrittenSpan, new JsonDocumentOptions { MaxDepth = JsonText.MostDepth + MostDepth });
    }

    private static void Write(Utf8JsonWriter json, JsonElement? element, Place? place)
    {
        if (place?.Value is { } value)
        {
            value.WriteTo(json);
        }
        else if (place is null)
        {
            element!.Value.WriteTo(json);
        }
        else if (element is { ValueKind: JsonValueKind.Array } list)
        {
            json.WriteStartArray();
            var i = 0;
            foreach (var item in list.EnumerateArray())
            {
                Write(json, item, place.Find(i++.ToString(System.Globalization.CultureInfo.InvariantCulture)));
            }

            json.WriteEndArray();
        }
        else
        {
            WriteMembers(json, element, place);
        }
    }

    private static void WriteMembers(Utf8JsonWriter json, JsonElement? element, Place place)
    {
        json.WriteStartObject();
        var written = new HashSet<string>(StringComparer.Ordinal);
        if (element is { ValueKind: JsonValueKind.Object } members)
        {
            foreach (var member in members.EnumerateObject())
            {
                json.WritePropertyName(member.Name);
                Write(json, member.Value, place.Find(member.Name));
                written.Add(member.Name);
            }
        }

        foreach (var (name, inner) in place.Inner.Where(p => !written.Contains(p.Name)))
        {
            json.WritePropertyName(name);
            Write(json, null, inner);
        }

        json.WriteEndObject();
    }

    private static string Unescaped(string step) =>
        Uri.UnescapeDataString(step).Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);

    private sealed class Place
    {
        private readonly List<(string Name, Place Inner)> inner = [];

        public JsonElement? Value { get; set; }

        public bool HasInner => inner.Count > 0;

        public IEnumerable<(string Name, Place Inner)> Inner => inner;

        public Place? Find(string name) => inner.FirstOrDefault(p => p.Name == name).Inner;

        public Place At(string name)
        {
            if (Find(name) is { } there)
            {
                return there;
            }

            var made = new Place();
            inner.Add((name, made));
            return made;
        }
    }
}
