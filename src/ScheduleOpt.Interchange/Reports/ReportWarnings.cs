using System.Globalization;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>The warnings of a report: each once, with the combinations that it is about.</summary>
internal static class ReportWarnings
{
    private const int Most = 60;

    /// <summary>Writes them; nothing where there are none.</summary>
    public static void Write(HtmlPage page, ComparisonRequest request, DecisionResult decided)
    {
        var general = request.Warnings.Concat(decided.Year.Warnings).Distinct().ToArray();
        var ofCells = decided.Cells.Select(c => c.Year)
            .SelectMany(c => c.Warnings.Select(w => (Cell: c, Warning: w)))
            .Where(w => !general.Contains(w.Warning))
            .GroupBy(w => w.Warning, w => w.Cell)
            .Select(w => About(w.Key, [.. w], decided));
        string[] warnings = [.. general, .. ofCells];
        if (warnings.Length == 0)
        {
            return;
        }

        page.Element("h3", "Warnings").List(warnings.Take(Most));
        if (warnings.Length > Most)
        {
            page.Say(string.Create(CultureInfo.InvariantCulture, $"{warnings.Length - Most} further warnings stand in the answer as JSON, each with its combination."), "small");
        }
    }

    private static string About(string warning, YearCell[] cells, DecisionResult decided) =>
        cells.Length == 1 ? $"{ReportWords.Of(cells[0])}: {warning}"
        : cells.Length == decided.Cells.Count ? warning
        : (Common(cells, c => c.SetUp.Name) ?? Common(cells, c => c.RatePlan.Name) ?? Common(cells, c => ReportWords.OfBehaviour(c.Behaviour?.Name))) is { } shared
            ? $"{shared}: {warning}"
            : string.Create(CultureInfo.InvariantCulture, $"{cells.Length} combinations, the first {ReportWords.Of(cells[0])}: {warning}");

    private static string? Common(YearCell[] cells, Func<YearCell, string> part) => cells.Select(part).Distinct().ToArray() is [var one] ? one : null;
}
