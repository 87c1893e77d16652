using System.Text;
using NodaTime.Text;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>An adviser's report of a comparison: one HTML file that opens offline, prints well and holds no script.</summary>
public static class ComparisonReport
{
    /// <summary>The policy under which it is to be served.</summary>
    public static string ContentSecurityPolicy => ReportStyle.ContentSecurityPolicy;

    /// <summary>Writes the report as UTF-8. Equal input gives equal bytes on one machine; fonts may place a chart's labels otherwise on another.</summary>
    /// <param name="request">The question.</param>
    /// <param name="decided">Its answer.</param>
    /// <param name="units">The units shown; none: as the request says.</param>
    public static byte[] Write(ComparisonRequest request, DecisionResult decided, ShownUnits? units = null)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(decided);
        units ??= ShownUnits.For(request.Options.Unit);
        var page = new HtmlPage();
        page.Markup("<!DOCTYPE html>").Markup("<html lang=\"en\"><head><meta charset=\"utf-8\"/>")
            .Markup("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>")
            .Markup("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>")
            .Element("title", Title(request))
            .Markup($"<style>{ReportStyle.Css}</style></head><body>");
        var calibration = Calibration.Of(request, decided);
        FirstPage(page, request, decided, calibration);
        ReportResults.Write(page, request, decided, units);
        ReportReasons.Write(page, request, decided, units);
        ReportMoney.Write(page, request, decided);
        ReportSetUps.Write(page, request, decided, units);
        ReportInputs.Write(page, request, decided, units, calibration);
        ReportDisclosure.Write(page, request, decided);
        page.Markup("<footer>").Say($"ScheduleOpt {ProgramVersion.Text}", "small").Say($"Input hash (SHA-256): {request.InputHash}", "hash").Markup("</footer>");
        return Encoding.UTF8.GetBytes(page.Markup("</body></html>").ToString());
    }

    private static string Title(ComparisonRequest request) => request.Scenario is { } scenario
        ? $"Set-ups and rate plans for {request.Case.Year}: {scenario.Name}"
        : $"Set-ups and rate plans for {request.Case.Year}";

    private static void FirstPage(HtmlPage page, ComparisonRequest request, DecisionResult decided, Calibration? calibration)
    {
        page.Element("h1", Title(request));
        if (request.Scenario is { Author.Length: > 0 } scenario)
        {
            page.Say($"Prepared by {scenario.Author}", "small");
        }

        page.Markup("<div class=\"evidence\">").Element("h3", "How well the house is known").Say(request.House.Words)
            .Say(calibration?.Words ?? "The model was not held against bills.")
            .Say("Every figure below is an estimate, neither a bill nor a promise; the utility's own bill is what counts.").Markup("</div>");
        DecisionCell[] ranked = [.. decided.Ranked];
        if (ranked.Length == 0)
        {
            page.Say("No set-up has all its first costs, so nothing is ranked.", "lead");
            return;
        }

        var (best, currency) = (ranked[0], decided.Year.Currency);
        page.Say(
            $"Least cost of {decided.Cells.Count} combinations: {best.Year.SetUp.Name}, on {best.Year.RatePlan.Name}, charging "
            + $"{ReportWords.OfBehaviour(best.Year.Behaviour?.Name)}. House and car cost {ReportWords.Amount(best.Year.WholeHouseCost, currency)} a year, the car "
            + $"{ReportWords.Amount(best.Year.CarCost, currency)} of it.",
            "lead");
        if (decided.Winters is { Weather.Count: > 1 } winters)
        {
            var years = winters.Cells.First(c => c.Name == best.Name).WholeHouseCost;
            page.Say(
                $"These are figures of the first weather year. Over {winters.Weather.Count} weather years house and car cost {ReportWords.Amount(years.Median, currency)} in the median, "
                + $"{ReportWords.Range(years, currency)}.");
        }

        if (best.Year.Behaviour is LeastCostKnownAhead)
        {
            var night = decided.Cells.FirstOrDefault(c => c.Year.Behaviour is LeastCostByNight && c.Year.SetUp == best.Year.SetUp && c.Year.RatePlan == best.Year.RatePlan);
            page.Say("Nobody knows the year ahead: this is what planning can reach at best. " + (night is null
                ? "What planning night by night reaches was not asked for."
                : $"Planned night by night with what was known that night, house and car cost {ReportWords.Amount(night.Year.WholeHouseCost, currency)} there."));
        }

        if (request.Decision.LifeCycle is { } asked)
        {
            var today = decided.Cells.First(c => c.Name == request.Decision.Today);
            page.Say(
                $"Ranked by life-cycle cost over {asked.Terms.Study.Years} years. Against today ({ReportWords.Of(today.Year)}) the present value of what is saved is "
                + $"{ReportWords.Amount(best.LifeCycle!.NetSavings, currency)}.");
        }
        else
        {
            page.Say("Ranked by the year's cash: bill of house and car, away charging and end correction. First costs are left out.");
        }

        var short0 = best.Year.ShortDays.Count;
        page.Say(short0 == 0
            ? "It leaves no day of the year short."
            : $"It leaves {short0} days of the year short; the first is {LocalDatePattern.Iso.Format(best.Year.ShortDays[0].Date)}.");
    }
}
