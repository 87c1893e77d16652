using System.Text.Json;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>scenario</c> of a comparison and lays its overrides over the request.</summary>
internal static class ScenarioReader
{
    private const int MostOverrides = 50, MostText = 200, MostNote = 1000;

    /// <summary>Reads the scenario.</summary>
    /// <param name="root">The request as it came.</param>
    /// <returns>The scenario, none where there is none; and the request with its overrides.</returns>
    public static (Scenario? Scenario, JsonElement Request) Read(JsonField root)
    {
        if (root.Element.ValueKind != JsonValueKind.Object || !root.Element.TryGetProperty("scenario", out var element)
            || new JsonField(element, "#/scenario", root.Faults).Members("name", "author", "overrides") is not { } scenario)
        {
            return (null, root.Element);
        }

        var before = root.Faults.Count;
        var name = scenario.Required("name", "Every scenario has a name.")?.Text(MostText);
        var author = Author(scenario) ?? "";
        var laid = new OverlaidJson(root.Element);
        var overrides = new List<ScenarioOverride>();
        foreach (var item in scenario.Optional("overrides")?.Items(0, MostOverrides, "overrides") ?? [])
        {
            if (One(item, author, laid) is { } one)
            {
                overrides.Add(one);
            }
        }

        return root.Faults.Count > before ? (null, root.Element) : (new Scenario(name!, author, overrides), laid.Written());
    }

    // Empty is none: an answer's scenario may be sent back as it is.
    private static string? Author(JsonMembers members) =>
        members.Optional("author") is not { } field || (field.Element.ValueKind == JsonValueKind.String && field.Element.GetString()!.Length == 0)
            ? null
            : field.Text(MostText);

    private static ScenarioOverride? One(JsonField item, string otherwise, OverlaidJson laid)
    {
        if (item.Members("field", "value", "was", "note", "author") is not { } one)
        {
            return null;
        }

        // 'was' stands in answers; here it is what the request has that counts.
        var before = item.Faults.Count;
        var field = one.Required("field", "Give the field as a JSON pointer, such as \"#/vehicle/consumptionKwhPer100Km\".")?.Text(MostText);
        var value = one.Required("value", "Give the value that holds instead.");
        var note = one.Required("note", "Say why the value holds.")?.Text(MostNote);
        var author = Author(one) ?? otherwise;
        if (author.Length == 0)
        {
            item.Faults.Add(one.Pointer("author"), "Is missing. An override names its author, here or for the whole scenario.");
        }

        if (value is { } given && (given.Element.ValueKind is JsonValueKind.Object or JsonValueKind.Array or JsonValueKind.Null
            || given.Element.GetRawText().Length > MostText))
        {
            given.Fault($"Must be a number, a text of at most {MostText} characters, true or false.");
        }

        if (item.Faults.Count > before)
        {
            return null;
        }

        if (laid.Lay(field!, value!.Value.Element, out var was) is { } rule)
        {
            one.Optional("field")!.Value.Fault(rule);
            return null;
        }

        return new ScenarioOverride(field!, value.Value.Element.GetRawText(), was, note!, author);
    }
}
