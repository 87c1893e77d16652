using System.Globalization;
using System.Text.RegularExpressions;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>The warnings of a report: each once, with the combinations that it is about.</summary>
internal static partial class ReportWarnings
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
            .Select(w => (Warning: w.Key, About: About([.. w], decided)))

            // One a month that differs in its figures alone is told once.
            .GroupBy(w => (w.About, Figures().Replace(w.Warning, "#")))
            .Select(w => w.Key.About + w.First().Warning + More(w.Count() - 1));
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

    private static string More(int others) =>
        others == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $" And {others} more like this one, with other figures: see the answer as JSON.");

    private static string About(YearCell[] cells, DecisionResult decided)
    {
        if (cells.Length == decided.Cells.Count)
        {
            return "";
        }

        // Public charging alone has no behaviour: it is none of those that a warning could be about all of.
        var all = decided.Cells.Select(c => c.Year).Where(c => c.Behaviour is not null || cells.Any(here => here.Behaviour is null)).ToArray();
        string[] parts =
        [
            Named(cells, all, c => c.SetUp.Name, "set-up"), Named(cells, all, c => c.RatePlan.Name, "rate plan"),
            Named(cells, all, c => ReportWords.OfBehaviour(c.Behaviour?.Name), "behaviour"),
        ];
        return $"{string.Join("; ", parts)}: ";
    }

    private static string Named(YearCell[] cells, YearCell[] all, Func<YearCell, string> part, string what)
    {
        var (here, known) = (cells.Select(part).Distinct().ToArray(), all.Select(part).Distinct().Count());
        return here.Length == known && known > 1 ? $"every {what}"
            : here.Length <= MostNamed ? string.Join(" and ", here)
            : string.Create(CultureInfo.InvariantCulture, $"{here.Length} of {known} {what}s");
    }

    [GeneratedRegex(@"\d[\d.,-]*", RegexOptions.CultureInvariant)]
    private static partial Regex Figures();
}
