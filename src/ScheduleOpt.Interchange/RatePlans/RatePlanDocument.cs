using System.Text.RegularExpressions;
using NodaTime;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads rate-plan documents: YAML on disk, JSON in the API, one schema (<c>tariffs/rate-plan.schema.json</c>).</summary>
public static partial class RatePlanDocument
{
    private const int MostFaults = 100;

    /// <summary>Reads a document.</summary>
    /// <param name="yamlOrJson">The text, at most 1 MiB; JSON where it begins with a brace.</param>
    /// <param name="id">The plan's identifier: the file's name without its extension. Letters, digits, <c>-</c>, <c>_</c> and <c>.</c>, at most 100.</param>
    /// <returns>The plan, or every fault found: of form (the first alone), of fields, or of the plan as a whole.</returns>
    public static Reading<RatePlan> Read(string yamlOrJson, string id)
    {
        if (!Identifier().IsMatch(id))
        {
            return Reading<RatePlan>.Refused(new Fault("#", "The identifier of a rate plan must be 1 to 100 letters, digits, '-', '_' or '.'.", id));
        }

        var text = DocumentText.Read(yamlOrJson);
        if (!text.IsRead)
        {
            return Reading<RatePlan>.Refused(text.Faults);
        }

        var faults = new List<Fault>();
        var plan = RatePlanReader.Read(new Field(text.Value, "#", 1, faults), id);
        var refused = faults.ConvertAll(f => f.Pointer + "/");
        var contradictions = refused.Count == 0
            ? RatePlanCheck.Faults(plan)
            : RatePlanCheck.FaultsOfParts(plan, path => !refused.Exists(r => r.StartsWith($"#{path}/", StringComparison.Ordinal)));
        faults.AddRange(contradictions.Select(f => new Fault("#" + f.Path, f.Rule, f.Found, LineOf(text.Value, f.Path))));

        if (faults.Count > MostFaults)
        {
            var left = faults.Count - MostFaults;
            faults.RemoveRange(MostFaults, left);
            faults.Add(new("#", $"There are {left} faults more, which are not listed."));
        }

        return faults.Count > 0 ? Reading<RatePlan>.Refused(faults) : plan;
    }

    /// <summary>Checks a document: every fault and everything odd, each with what to do about it.</summary>
    /// <param name="yamlOrJson">The text, at most 1 MiB; JSON where it begins with a brace.</param>
    /// <param name="id">The plan's identifier, as for <see cref="Read"/>.</param>
    public static RatePlanReport Check(string yamlOrJson, string id)
    {
        var reading = Read(yamlOrJson, id);
        if (!reading.IsRead)
        {
            return new(null, [.. reading.Faults.Select(f => new RatePlanFinding(f, Suggestions.For(f)))], []);
        }

        var root = DocumentText.Read(yamlOrJson).Value;
        return new(reading.Value, [], [.. RatePlanWarnings.Of(reading.Value)
            .Select(w => new Fault("#" + w.Path, w.Rule, w.Found, LineOf(root, w.Path)))
            .Select(f => new RatePlanFinding(f, Suggestions.For(f)))]);
    }

    /// <summary>The same document as JSON, field by field in its own order and with its numbers as they were written.</summary>
    /// <param name="yamlOrJson">A text that can be read.</param>
    /// <exception cref="ArgumentException">The text is neither JSON nor YAML.</exception>
    public static string ToJson(string yamlOrJson)
    {
        var text = DocumentText.Read(yamlOrJson);
        return text.IsRead ? NodeJson.Write(text.Value) : throw new ArgumentException(text.Faults[0].ToString(), nameof(yamlOrJson));
    }

    /// <summary>The line of the place, or of the nearest thing around it that is written down.</summary>
    private static int LineOf(DocumentNode root, string path)
    {
        var node = root;
        foreach (var step in path.Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            var next = node.Kind == NodeKind.Object ? node.Member(step)
                : node.Kind == NodeKind.List && int.TryParse(step, out var i) && i < node.Elements.Count ? node.Elements[i]
                : null;
            if (next is null)
            {
                break;
            }

            node = next;
        }

        return node.Line;
    }

    [GeneratedRegex(@"\A[A-Za-z0-9][A-Za-z0-9._-]{0,99}\z", RegexOptions.CultureInvariant)]
    private static partial Regex Identifier();
}
