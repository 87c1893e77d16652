using System.Globalization;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Core.Homes.Panels;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Range added per hour, nights that need a plug, and the panel.</summary>
internal static class ReportSetUps
{
    /// <summary>Writes the sections.</summary>
    public static void Write(HtmlPage page, ComparisonRequest request, DecisionResult decided, ShownUnits units)
    {
        page.Element("h2", "Range added per hour");
        page.Table(
            $"By quarter: rated at {units.Warm(20, 0)}, real at the temperature",
            ["<Set-up", "Months", $">Mean {units.Degree}", ">kW into the battery", $">Rated, {units.Far} per h", $">Real, {units.Far} per h", ">Nights a week"],
            decided.SetUps.SelectMany(s => s.Seasons.Select(q => (IReadOnlyList<string>)
            [
                s.Offered.SetUp.Name, q.Months, ReportWords.Plain(units.Degrees(q.MeanC), 1), ReportWords.Plain(q.Range.NetKw, 2), ReportWords.Plain(q.Range.Rated.Kilometres / units.Kilometres, 1),
                ReportWords.Plain(q.Range.Real.Kilometres / units.Kilometres, 1),
                q.Nights.WholeNights is { } nights ? nights.ToString(CultureInfo.InvariantCulture) : "7 are not enough",
            ])));
        Panel(page, request, decided);
    }

    private static void Panel(HtmlPage page, ComparisonRequest request, DecisionResult decided)
    {
        page.Element("h2", "Panel estimate");
        if (request.Decision.Panel is null)
        {
            page.Say("Nothing was given about the panel. What a panel can carry needs an electrician's calculation.");
            return;
        }

        page.Say(PanelEstimate.Caution);
        var estimates = decided.SetUps.Where(s => s.Panel is not null).ToArray();
        page.Table(
            "In kVA; an estimate beside each set-up that it knows",
            ["<Set-up", "Outcome", ">Service", ">House", ">Charging", ">Left", ">Managed maximum, A"],
            estimates.Select(s => (IReadOnlyList<string>)
            [
                s.Offered.SetUp.Name, ReportWords.Of(s.Panel!.Outcome), ReportWords.Plain(s.Panel.ServiceKva, 1), Kva(s.Panel.HouseKva), Kva(s.Panel.ChargingKva),
                Kva(s.Panel.LeftKva), s.Panel.Managed is { } managed ? managed.CurrentA.ToString(CultureInfo.InvariantCulture) : "–",
            ]));
        page.List(estimates.SelectMany(s => s.Panel!.Reasons.Prepend(s.Panel.Method)).Distinct());
        if (estimates.Any(s => s.Panel!.Managed is not null))
        {
            page.Say($"Load management as an alternative. {ManagedMaximum.Condition}", "small");
        }
    }

    private static string Kva(double? kva) => kva is { } value ? ReportWords.Plain(value, 2) : "–";
}
