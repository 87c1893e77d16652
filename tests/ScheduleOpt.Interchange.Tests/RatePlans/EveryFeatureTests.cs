using System.Text.Json;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

// The sample plans together use everything that the schema knows: each field, and each word of a choice.
public class EveryFeatureTests
{
    // Fields that many charges share stand in the schema several times: one use of each is enough.
    private static readonly string[] Shared = ["when", "calendar", "seasons", "periods", "billingSeasons", "from", "until", "per", "parts", "counts", "lossFactor", "clock", "limitPer", "limitInWholeKwh"];

    [Fact]
    public void SamplePlans_Together_UseEveryFieldAndWord()
    {
        using var schema = JsonDocument.Parse(RatePlanLibrary.Schema);
        var used = new HashSet<string>();
        foreach (var id in RatePlanLibrary.Ids)
        {
            using var plan = JsonDocument.Parse(RatePlanLibrary.FindJson(id)!);
            Walk(schema.RootElement, schema.RootElement, plan.RootElement, "", used);
        }

        // Which days of the week holidays fall on, and which parts a credit offsets, is no feature apart.
        var known = new HashSet<string>();
        List(schema.RootElement, schema.RootElement, "", known, 0);
        known.RemoveWhere(k => k.StartsWith("holiday/weekday = ", StringComparison.Ordinal) || k.StartsWith("export/offsets = ", StringComparison.Ordinal));
        Assert.True(known.Count > 200, $"{known.Count}");
        Assert.True(known.IsSubsetOf(used), string.Join("; ", known.Except(used).Order()));
    }

    private static void Walk(JsonElement root, JsonElement schema, JsonElement value, string name, HashSet<string> used)
    {
        (schema, name) = Resolved(root, schema, name);
        if (schema.TryGetProperty("oneOf", out var branches) && !schema.TryGetProperty("type", out _))
        {
            foreach (var branch in branches.EnumerateArray().Where(b => Fits(root, b, value)))
            {
                Walk(root, branch, value, name, used);
            }
        }

        if (schema.TryGetProperty("enum", out _) && value.ValueKind == JsonValueKind.String)
        {
            used.Add($"{name} = {value.GetString()}");
        }

        if (value.ValueKind == JsonValueKind.Object && schema.TryGetProperty("properties", out var properties))
        {
            foreach (var member in value.EnumerateObject())
            {
                var path = Path(name, member.Name);
                used.Add(path);
                Walk(root, properties.GetProperty(member.Name), member.Value, path, used);
            }
        }
        else if (value.ValueKind == JsonValueKind.Array)
        {
            foreach (var element in value.EnumerateArray())
            {
                Walk(root, schema.GetProperty("items"), element, name, used);
            }
        }
    }

    private static void List(JsonElement root, JsonElement schema, string name, HashSet<string> known, int depth)
    {
        Assert.True(depth < 20);
        (schema, name) = Resolved(root, schema, name);
        if (schema.TryGetProperty("enum", out var words))
        {
            known.UnionWith(words.EnumerateArray().Where(w => w.ValueKind == JsonValueKind.String).Select(w => $"{name} = {w.GetString()}"));
        }

        if (schema.TryGetProperty("properties", out var properties))
        {
            foreach (var property in properties.EnumerateObject())
            {
                var path = Path(name, property.Name);
                known.Add(path);
                List(root, property.Value, path, known, depth + 1);
            }
        }

        if (schema.TryGetProperty("items", out var items))
        {
            List(root, items, name, known, depth + 1);
        }
    }

    private static string Path(string name, string member) => Shared.Contains(member) ? member : $"{name.Split('/')[^1]}/{member}";

    // An object that is defined once goes by its definition's name, wherever it stands.
    private static (JsonElement Schema, string Name) Resolved(JsonElement root, JsonElement schema, string name = "")
    {
        while (schema.TryGetProperty("$ref", out var reference))
        {
            var definition = reference.GetString()!.Split('/')[^1];
            schema = root.GetProperty("$defs").GetProperty(definition);
            name = schema.TryGetProperty("properties", out _) ? definition : name;
        }

        return (schema, name);
    }

    private static bool Fits(JsonElement root, JsonElement branch, JsonElement value) =>
        Resolved(root, branch).Schema.TryGetProperty("type", out var type) && (type.GetString() == "object") == (value.ValueKind == JsonValueKind.Object);
}
