using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Service.Documentation;

/// <summary>The schemas and the examples that travel inside the program.</summary>
internal static class ApiSchemas
{
    private const string Components = "#/components/schemas/", RatePlan = "RatePlanDocument";

    /// <summary>The schemas by name, as the document holds them.</summary>
    public static IDictionary<string, IOpenApiSchema> Load() =>
        OpenApiDocument.Parse(Json().ToJsonString(), "json").Document!.Components!.Schemas!;

    /// <summary>The schemas as JSON, a document with nothing else. That of rate plans is the one beside them in <c>tariffs/</c>.</summary>
    public static JsonNode Json()
    {
        var document = JsonNode.Parse(Text("schemas.json"))!;
        var schemas = document["components"]!["schemas"]!.AsObject();

        // Its own definitions become schemas of the document: within it, "#/$defs" would lead nowhere.
        var plan = JsonNode.Parse(RatePlanLibrary.Schema
            .Replace("\"#/$defs/", $"\"{Components}{RatePlan}.", StringComparison.Ordinal))!.AsObject();
        ForbidByNot(plan);
        foreach (var (name, definition) in plan["$defs"]!.AsObject())
        {
            schemas[$"{RatePlan}.{name}"] = definition!.DeepClone();
        }

        plan.Remove("$defs");
        plan.Remove("$schema");
        plan.Remove("$id");
        schemas[RatePlan] = plan;
        return document;
    }

    /// <summary>An example request.</summary>
    public static JsonNode Example(string name) => JsonNode.Parse(Text($"examples/{name}.json"))!;

    // "false" forbids a field; the OpenAPI library can't read that form, and "not anything" says the same.
    private static void ForbidByNot(JsonNode? node)
    {
        if (node is JsonArray items)
        {
            foreach (var item in items)
            {
                ForbidByNot(item);
            }
        }
        else if (node is JsonObject schema)
        {
            if (schema["properties"] is JsonObject fields)
            {
                foreach (var name in fields.Where(f => f.Value?.GetValueKind() == JsonValueKind.False).Select(f => f.Key).ToArray())
                {
                    fields[name] = new JsonObject { ["not"] = new JsonObject() };
                }
            }

            foreach (var (_, child) in schema)
            {
                ForbidByNot(child);
            }
        }
    }

    private static string Text(string name)
    {
        using var reader = new StreamReader(typeof(ApiSchemas).Assembly.GetManifestResourceStream(name)!);
        return reader.ReadToEnd();
    }
}
