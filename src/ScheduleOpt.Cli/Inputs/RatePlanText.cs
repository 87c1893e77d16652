using System.Text.Json.Nodes;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>Finds a rate plan by the id of one that comes with the program, or reads the file of a document.</summary>
internal static class RatePlanText
{
    /// <summary>The plan, or every fault: of the option, or of the document with its pointer and line.</summary>
    /// <param name="idOrFile">An id, or the path of a YAML or JSON document.</param>
    /// <param name="field">The option or argument that names it.</param>
    /// <param name="standardInput">What <c>-</c> reads.</param>
    public static Reading<RatePlanFound> Find(string idOrFile, string field, TextReader standardInput)
    {
        if (RatePlanLibrary.Find(idOrFile) is { } known)
        {
            return new RatePlanFound(known, JsonValue.Create(idOrFile), []);
        }

        if (idOrFile != "-" && !File.Exists(idOrFile) && !LooksLikeFile(idOrFile))
        {
            return Reading<RatePlanFound>.Refused(new Fault(
                field, $"Must be the file of a rate-plan document, or one of: {string.Join(", ", RatePlanLibrary.Ids)}.", idOrFile));
        }

        var text = InputText.Read(idOrFile, field, standardInput);
        if (!text.IsRead)
        {
            return Reading<RatePlanFound>.Refused(text.Faults);
        }

        var id = idOrFile == "-" ? "standard-input" : Path.GetFileNameWithoutExtension(idOrFile);
        var report = RatePlanDocument.Check(text.Value, id);
        return report.Plan is { } plan
            ? new RatePlanFound(plan, JsonNode.Parse(RatePlanDocument.ToJson(text.Value))!, InOrder(report.Warnings))
            : Reading<RatePlanFound>.Refused(InOrder(report.Faults));
    }

    /// <summary>Findings by line, what to do about each behind its rule; what was found stays last.</summary>
    private static Fault[] InOrder(IEnumerable<RatePlanFinding> findings) =>
    [
        .. findings
            .Select(f => f.Suggestion.Length > 0 ? f.Fault with { Rule = $"{f.Fault.Rule} {f.Suggestion}" } : f.Fault)
            .OrderBy(f => f.Line ?? int.MaxValue),
    ];

    /// <summary>A fault of a document with the file and the line before its pointer, as editors understand it.</summary>
    public static Fault InFile(Fault fault, string file) => fault.Pointer.StartsWith('#')
        ? fault with { Pointer = $"{(file == "-" ? "standard input" : file)}{(fault.Line is { } line ? $":{line}" : "")} {fault.Pointer}", Line = null }
        : fault;

    private static bool LooksLikeFile(string text) =>
        text.Contains('/', StringComparison.Ordinal) || text.Contains('\\', StringComparison.Ordinal) || Path.GetExtension(text).Length > 1;
}
