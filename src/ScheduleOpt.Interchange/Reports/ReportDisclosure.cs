using NodaTime.Text;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>What a rate comparison discloses, point by point.</summary>
internal static class ReportDisclosure
{
    /// <summary>Writes the section.</summary>
    public static void Write(HtmlPage page, ComparisonRequest request, DecisionResult decided)
    {
        page.Element("h2", "Disclosure").Markup("<ol>");
        Point(page, "Use data", $"A year of 12 months, {request.Case.Year}. {request.House.Words} The car's use is modelled from its trips.");
        page.Markup("<li>").Element("strong", "Rate plans");
        page.Table("Document, dates and source", ["Rate plan", "Utility", "In effect", "Source"], request.Case.RatePlans.Select(p => (IReadOnlyList<string>)
        [
            $"{p.Name} ({p.Id})", p.Utility,
            $"from {LocalDatePattern.Iso.Format(p.EffectiveFrom)}{(p.EffectiveUntil is { } until ? $" until {LocalDatePattern.Iso.Format(until)}" : "")}", p.Source,
        ]));
        ReportComponents.Write(page, decided);
        page.Say("Parts that are not in a table are not in that rate plan, or nothing of them fell due.", "small").Markup("</li>");
        Point(page, "What the plan reprices", request.Case.RatePlans.All(p => p.Metering == Metering.WholeHouse)
            ? "Each rate plan reprices the whole house: the bills hold the house in every column."
            : $"These reprice the car alone, on a meter of its own: {Names(request.Case.RatePlans.Where(p => p.Metering != Metering.WholeHouse).Select(p => p.Name))}; the others reprice the whole house. "
                + "The bills hold the house in every column.");
        Point(page, "Separate meter", decided.Cells.Where(c => c.Year.HousePlan is not null).DistinctBy(c => c.Year.RatePlan.Id).Select(
            c => $"{c.Year.RatePlan.Name}: the house stays on {c.Year.HousePlan!.Name}; both customer charges are in the bills").ToArray() is { Length: > 0 } separate
            ? $"{string.Join("; ", separate)}. The meter pan and the electrician's work are only in the first costs if they were given there; ask the utility."
            : "A second meter is not compared here: it needs a meter pan, an electrician and a second customer charge; ask the utility.");
        Point(page, "Guarantee", "None is assumed. Whether the utility protects the bill in the first year of a new rate is for the utility to say.");
        Point(page, "Behaviour", $"{string.Join("; ", request.Case.Behaviours.Select(b => $"{ReportWords.OfBehaviour(b.Name)}: {b.Description}"))}. The car is plugged in at every stay at home; no night is missed"
            + $"{(decided.Uncertainty is null ? "." : ", except where that is varied.")} Temperatures: {string.Join("; ", request.Case.FurtherWeather.Prepend(request.Case.Weather).Select(ReportWords.Of).Distinct())}.");
        Point(page, "Totals", "The year's total and each billing period with the dearest one stand under Results; the break-even of the share charged off-peak, where asked for, under What would flip the ranking.");
        Point(page, "Range", (decided.Winters is { Weather.Count: > 1 } winters
            ? $"Median and range over {winters.Weather.Count} weather years stand in the ranking. " : "")
            + (decided.Uncertainty is null ? "Inputs were not varied." : "A range by varying one input at a time, and what would flip the ranking, stand above."));
        Point(page, "Estimate", $"This is an estimate, not a bill and not a promise. {Day(request)}Version {ProgramVersion.Text}, input hash {request.InputHash}: the same request under this version gives the same figures.");
        Point(page, "One set of assumptions", request.Decision.LifeCycle is { } asked
            ? $"The same for all rate plans and set-ups. Energy prices: {asked.EnergyPrices.Basis}."
            : "The same for all rate plans and set-ups. No escalation: one year alone is compared.");
        page.Markup("</ol>");
    }

    // The program has no clock of its own here: equal input gives equal bytes.
    private static string Day(ComparisonRequest request) => request.Decision.LifeCycle is { } asked
        ? $"Base date {LocalDatePattern.Iso.Format(asked.Terms.Study.BaseDate)}. "
        : $"Year {request.Case.Year}. ";

    private static void Point(HtmlPage page, string name, string text) =>
        page.Markup("<li>").Element("strong", name).Say(text).Markup("</li>");

    private static string Names(IEnumerable<string> names) => names.Distinct().ToArray() is { Length: > 0 } all ? string.Join(", ", all) : "none";
}
