using System.Globalization;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>The warnings of a report: each once, with the combinations that it is about.</summary>
internal static class ReportWarnings
{
    private const int Most = 60, MostNamed = 3;

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

    private static string About(string warning, YearCell[] cells, DecisionResult decided)
    {
        if (cells.Length == decided.Cells.Count)
        {
            return warning;
        }

        string[] parts =
        [
            Named(cells, decided, c => c.SetUp.Name, "set-up"), Named(cells, decided, c => c.RatePlan.Name, "rate plan"),
            Named(cells, decided, c => ReportWords.OfBehaviour(c.Behaviour?.Name), "behaviour"),
        ];
        return $"{string.Join(", ", parts.Distinct())}: {warning}";
    }

    private static string Named(YearCell[] cells, DecisionResult decided, Func<YearCell, string> part, string what)
    {
        var (here, all) = (cells.Select(part).Distinct().ToArray(), decided.Cells.Select(c => part(c.Year)).Distinct().Count());
        return here.Length == all && all > 1 ? $"every {what}"
            : here.Length <= MostNamed ? string.Join(" and ", here)
            : string.Create(CultureInfo.InvariantCulture, $"{here.Length} of {all} {what}s");
    }
}
