using System.Text;
using System.Text.Json;
using System.Text.Unicode;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>A text that has been found to be one JSON document (RFC 8259), or why it isn't.</summary>
public sealed class JsonText
{
    /// <summary>Objects and arrays may stand in one another no deeper than this.</summary>
    public const int MostDepth = 32;

    /// <summary>The largest document that a service takes. [bytes] 1 MiB.</summary>
    public const int MostBytes = 1024 * 1024;

    private static readonly JsonReaderOptions ReaderOptions = new() { MaxDepth = MostDepth };

    private JsonText(JsonElement root) => Root = root;

    /// <summary>The document.</summary>
    internal JsonElement Root { get; }

    /// <summary>Reads a text as JSON. The one fault names line and byte.</summary>
    public static Reading<JsonText> Read(string text) => Read(Encoding.UTF8.GetBytes(text));

    /// <summary>Reads UTF-8 bytes as JSON; a byte order mark is skipped. The one fault names line and byte.</summary>
    public static Reading<JsonText> Read(ReadOnlySpan<byte> utf8)
    {
        if (utf8.StartsWith("\uFEFF"u8))
        {
            utf8 = utf8[3..];
        }

        if (utf8.Trim(" \t\r\n"u8).IsEmpty)
        {
            return Refused("The body is empty; it must be one JSON document.");
        }

        if (!Utf8.IsValid(utf8))
        {
            return Refused("The body must be text in UTF-8; it holds bytes that are not.");
        }

        try
        {
            if (BrokenEscape(utf8) is { } position)
            {
                return Refused($"At byte {position}: a \\u escape is half of a surrogate pair and stands for no character.");
            }

            return new JsonText(JsonElement.Parse(utf8, new JsonDocumentOptions { MaxDepth = MostDepth }));
        }
        catch (JsonException e)
        {
            return Refused($"{Place(e)}{Reason(e)}");
        }
    }

    private static Reading<JsonText> Refused(string rule) => Reading<JsonText>.Refused(new Fault("#", rule));

    private static string Place(JsonException e) =>
        e.LineNumber is { } line && e.BytePositionInLine is { } at ? $"At line {line + 1}, byte {at + 1}: " : "";

    // The parser's sentences end in "LineNumber: 0 | BytePositionInLine: 5.", counted from 0: we say it our way.
    private static string Reason(JsonException e)
    {
        var tail = e.Message.IndexOf("LineNumber:", StringComparison.Ordinal);
        var reason = (tail > 0 ? e.Message[..tail] : e.Message).Trim();
        return reason.Contains("maximum configured depth", StringComparison.Ordinal) ? $"objects and arrays may be nested {MostDepth} deep at most."
            : reason.Contains("depth to be zero", StringComparison.Ordinal) ? "the body ends before every object and array in it is closed."
            : $"this is not JSON. {reason}";
    }

    private static long? BrokenEscape(ReadOnlySpan<byte> utf8)
    {
        var reader = new Utf8JsonReader(utf8, ReaderOptions);
        while (reader.Read())
        {
            if (reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName && reader.ValueIsEscaped)
            {
                try
                {
                    reader.GetString();
                }
                catch (InvalidOperationException)
                {
                    return reader.TokenStartIndex + 1;
                }
            }
        }

        return null;
    }
}
