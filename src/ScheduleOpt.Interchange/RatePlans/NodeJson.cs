using System.Text;
using System.Text.Json;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Writes nodes as JSON.</summary>
internal static class NodeJson
{
    public static string Write(DocumentNode root)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            Write(writer, root);
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static void Write(Utf8JsonWriter writer, DocumentNode node)
    {
        switch (node.Kind)
        {
            case NodeKind.Object:
                writer.WriteStartObject();
                foreach (var (name, member) in node.Members)
                {
                    writer.WritePropertyName(name);
                    Write(writer, member);
                }

                writer.WriteEndObject();
                break;
            case NodeKind.List:
                writer.WriteStartArray();
                node.Elements.ForEach(e => Write(writer, e));
                writer.WriteEndArray();
                break;
            case NodeKind.String:
                writer.WriteStringValue(node.Text);
                break;
            case NodeKind.Number:
                writer.WriteRawValue(node.Text);
                break;
            case NodeKind.Boolean:
                writer.WriteBooleanValue(node.Text == "true");
                break;
            default:
                writer.WriteNullValue();
                break;
        }
    }
}
