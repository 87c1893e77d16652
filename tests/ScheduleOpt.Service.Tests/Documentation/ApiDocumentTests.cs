using System.Net;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Service.Tests.Documentation;

public sealed class ApiDocumentTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Document_Served_IsTheCommittedOne()
    {
        var served = (await service.CreateClient().GetStringAsync("/openapi/v1.json")).ReplaceLineEndings("\n").Trim();
        var path = Path.Combine(RepositoryRoot(), "src/ScheduleOpt.Service/openapi/ScheduleOpt.json");
        if (Environment.GetEnvironmentVariable("UPDATE_OPENAPI") == "1")
        {
            await File.WriteAllTextAsync(path, served + "\n");
        }

        Assert.Equal((await File.ReadAllTextAsync(path)).ReplaceLineEndings("\n").Trim(), served);
    }

    [Fact]
    public async Task Document_Served_IsOpenApi31AndNamesEveryOperation()
    {
        var document = JsonNode.Parse(await service.CreateClient().GetStringAsync("/openapi/v1.json"))!;
        Assert.StartsWith("3.1", (string?)document["openapi"], StringComparison.Ordinal);
        var operations = document["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject()).ToArray();
        Assert.All(operations, o =>
        {
            Assert.False(string.IsNullOrWhiteSpace((string?)o.Value!["operationId"]));
            Assert.False(string.IsNullOrWhiteSpace((string?)o.Value["summary"]));
            Assert.False(string.IsNullOrWhiteSpace((string?)o.Value["description"]));
            Assert.NotNull(o.Value["responses"]!["200"]);
        });
    }

    [Fact]
    public async Task Document_EverySchemaField_HasADescriptionOrAReference()
    {
        var document = JsonNode.Parse(await service.CreateClient().GetStringAsync("/openapi/v1.json"))!;

        // The rate plan's schema is read and tested where it stands, beside the rate plans.
        var fields = document["components"]!["schemas"]!.AsObject()
            .Where(s => !s.Key.StartsWith("RatePlanDocument", StringComparison.Ordinal))
            .SelectMany(s => (s.Value!["properties"]?.AsObject() ?? []).Select(p => (Name: $"{s.Key}.{p.Key}", Schema: p.Value!)))
            .ToArray();
        Assert.True(fields.Length > 100);
        Assert.All(fields, f => Assert.True(f.Schema["description"] is not null || f.Schema["$ref"] is not null, f.Name));
    }

    [Fact]
    public async Task Document_EveryExample_Runs()
    {
        using var client = service.CreateClient();
        var document = JsonNode.Parse(await client.GetStringAsync("/openapi/v1.json"))!;
        var examples = document["paths"]!.AsObject()
            .Where(p => p.Value!["post"] is not null)
            .SelectMany(p => p.Value!["post"]!["requestBody"]!["content"]!["application/json"]!["examples"]!.AsObject()
                .Select(e => (Path: p.Key, Body: e.Value!["value"]!)))
            .ToArray();
        Assert.NotEmpty(examples);
        foreach (var (path, body) in examples)
        {
            var response = await client.PostAsync(path, Requests.Json(body));
            Assert.True(response.StatusCode == HttpStatusCode.OK, $"{path}: {await response.Content.ReadAsStringAsync()}");
        }
    }

    private static string RepositoryRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "ScheduleOpt.sln")))
        {
            folder = Path.GetDirectoryName(folder.TrimEnd(Path.DirectorySeparatorChar))!;
        }

        return folder;
    }
}
