using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace ScheduleOpt.Cli;

/// <summary>Writes answers for machines.</summary>
internal static class JsonOutput
{
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes an answer as it is.</summary>
    public static void Write(Surroundings surroundings, byte[] utf8) => surroundings.Out.WriteLine(Encoding.UTF8.GetString(utf8));

    /// <summary>Writes one object.</summary>
    public static void Write(Surroundings surroundings, Action<Utf8JsonWriter> members)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer, Options))
        {
            json.WriteStartObject();
            members(json);
            json.WriteEndObject();
        }

        Write(surroundings, buffer.ToArray());
    }

    /// <summary>Writes several answers as members of one object.</summary>
    public static void Write(Surroundings surroundings, params (string Name, byte[] Utf8)[] answers) => Write(surroundings, json =>
    {
        foreach (var (name, utf8) in answers)
        {
            json.WritePropertyName(name);
            json.WriteRawValue(utf8, skipInputValidation: true);
        }
    });
}
