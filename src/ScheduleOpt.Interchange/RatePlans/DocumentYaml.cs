using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Writes a rate-plan document as YAML that <see cref="RatePlanDocument"/> reads as the same document.</summary>
public static partial class DocumentYaml
{
    private const int Indent = 2;
    private const int MostOnALine = 100;
    private static readonly JsonSerializerOptions Quoted = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes the document; small objects and lists stand on one line.</summary>
    public static string Write(JsonObject document)
    {
        ArgumentNullException.ThrowIfNull(document);
        var text = new StringBuilder();
        Members(text, document, 0, isInList: false);
        return text.ToString();
    }

    private static void Members(StringBuilder text, JsonObject node, int depth, bool isInList)
    {
        var first = isInList;
        foreach (var (name, value) in node)
        {
            text.Append(' ', first ? 0 : depth).Append(Scalar(name)).Append(':');
            first = false;
            Value(text, value, depth);
        }
    }

    private static void Value(StringBuilder text, JsonNode? value, int depth)
    {
        var inline = Inline(value);
        if (value is JsonObject { Count: > 0 } inner && inline.Length > MostOnALine)
        {
            text.Append('\n');
            Members(text, inner, depth + Indent, isInList: false);
        }
        else if (value is JsonArray { Count: > 0 } list && (inline.Length > MostOnALine || list.Any(i => i is JsonObject)))
        {
            text.Append('\n');
            foreach (var item in list)
            {
                text.Append(' ', depth + Indent).Append("- ");
                var line = Inline(item);
                if (item is JsonObject { Count: > 0 } entry && line.Length > MostOnALine)
                {
                    Members(text, entry, depth + (2 * Indent), isInList: true);
                }
                else
                {
                    text.Append(line).Append('\n');
                }
            }
        }
        else
        {
            text.Append(' ').Append(inline).Append('\n');
        }
    }

    private static string Inline(JsonNode? node) => node switch
    {
        JsonObject { Count: 0 } => "{}",
        JsonObject o => $"{{ {string.Join(", ", o.Select(m => $"{Scalar(m.Key)}: {Inline(m.Value)}"))} }}",
        JsonArray a => $"[{string.Join(", ", a.Select(Inline))}]",
        JsonValue v when v.GetValueKind() == JsonValueKind.String => Scalar(v.GetValue<string>()),
        null => "null",
        _ => node.ToJsonString(),
    };

    // What could be read as anything but a text, or hold a sign of YAML, is quoted; the escapes of JSON are among those of YAML.
    private static string Scalar(string text) =>
        PlainText().IsMatch(text) && text is not ("true" or "false" or "null") ? text : JsonSerializer.Serialize(text, Quoted);

    [GeneratedRegex(@"\A[A-Za-z](?:[A-Za-z0-9_/.()+-]| (?=[A-Za-z0-9(]))*\z", RegexOptions.CultureInvariant)]
    private static partial Regex PlainText();
}
