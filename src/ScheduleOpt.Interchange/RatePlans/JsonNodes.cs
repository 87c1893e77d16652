using System.Text;
using System.Text.Json;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads JSON into nodes, with lines.</summary>
internal static class JsonNodes
{
    /// <exception cref="DocumentRefusedException">The text is no JSON or breaks a limit.</exception>
    public static DocumentNode Read(string text)
    {
        var bytes = Encoding.UTF8.GetBytes(text);
        // One level more than allowed, so that our own message is the one that speaks.
        var reader = new Utf8JsonReader(bytes, new JsonReaderOptions { MaxDepth = DocumentLimits.Depth + 2 });
        var builder = new NodeBuilder();
        int line = 1, counted = 0;
        try
        {
            while (reader.Read())
            {
                var start = (int)reader.TokenStartIndex;
                line += bytes.AsSpan(counted, start - counted).Count((byte)'\n');
                counted = start;
                Take(builder, ref reader, line);
            }
        }
        catch (JsonException e)
        {
            throw builder.Refused("The text must be valid JSON.", "", (int)(e.LineNumber ?? 0) + 1);
        }
        catch (InvalidOperationException)
        {
            // A string with half of a surrogate pair.
            throw builder.Refused("Strings must be valid Unicode.", "", line);
        }

        return builder.Root!;
    }

    private static void Take(NodeBuilder builder, ref Utf8JsonReader reader, int line)
    {
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject:
                builder.Begin(NodeKind.Object, line);
                break;
            case JsonTokenType.StartArray:
                builder.Begin(NodeKind.List, line);
                break;
            case JsonTokenType.EndObject or JsonTokenType.EndArray:
                builder.End();
                break;
            case JsonTokenType.PropertyName:
                builder.Key(reader.GetString()!, line);
                break;
            case JsonTokenType.String:
                builder.Scalar(NodeKind.String, reader.GetString()!, line);
                break;
            case JsonTokenType.Number:
                builder.Scalar(NodeKind.Number, Encoding.UTF8.GetString(reader.ValueSpan), line);
                break;
            case JsonTokenType.True or JsonTokenType.False:
                builder.Scalar(NodeKind.Boolean, reader.GetBoolean() ? "true" : "false", line);
                break;
            default:
                builder.Scalar(NodeKind.Null, "null", line);
                break;
        }
    }
}
