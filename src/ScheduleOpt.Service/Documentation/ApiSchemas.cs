using System.Text.Json.Nodes;
using Microsoft.OpenApi;

namespace ScheduleOpt.Service.Documentation;

/// <summary>The schemas and the examples that travel inside the program.</summary>
internal static class ApiSchemas
{
    /// <summary>The schemas by name.</summary>
    public static IDictionary<string, IOpenApiSchema> Load() =>
        OpenApiDocument.Parse(Text("schemas.json"), "json").Document!.Components!.Schemas!;

    /// <summary>An example request.</summary>
    public static JsonNode Example(string name) => JsonNode.Parse(Text($"examples/{name}.json"))!;

    /// <summary>The text of a resource.</summary>
    public static string Text(string name)
    {
        using var reader = new StreamReader(typeof(ApiSchemas).Assembly.GetManifestResourceStream(name)!);
        return reader.ReadToEnd();
    }
}
