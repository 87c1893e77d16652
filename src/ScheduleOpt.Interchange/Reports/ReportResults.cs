using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Results: ranking, months, coldest week.</summary>
internal static class ReportResults
{
    private const int MostRows = 40, MostMonths = 4;

    /// <summary>Writes the section.</summary>
    public static void Write(HtmlPage page, ComparisonRequest request, DecisionResult decided)
    {
        var currency = decided.Year.Currency;
        DecisionCell[] ranked = [.. decided.Ranked];
        page.Element("h2", "Results");
        Ranking(page, decided, ranked, currency);
        if (ranked.Length > 0)
        {
            Months(page, request, ranked, currency);
        }

        ColdestWeek(page, request, decided, ranked);
    }

    private static void Ranking(HtmlPage page, DecisionResult decided, DecisionCell[] ranked, string currency)
    {
        var byLife = ranked.Any(c => c.LifeCycle is not null);
        string[] head =
        [
            ">Row", "Set-up", "Rate plan", "Behaviour", $">House and car, {currency} a year", $">Car, {currency} a year",
            .. byLife ? [$">Life-cycle cost, {currency}"] : Array.Empty<string>(), ">Ready", ">Days short",
        ];
        page.Table("Ranking, cheapest first", head, ranked.Take(MostRows).Select((c, i) => (IReadOnlyList<string>)
        [
            Number(i + 1), c.Year.SetUp.Name, c.Year.RatePlan.Name, ReportWords.OfBehaviour(c.Year.Behaviour?.Name),
            ReportWords.Figure(c.Year.WholeHouseCost, currency), ReportWords.Figure(c.Year.CarCost, currency),
            .. byLife ? [ReportWords.Figure(c.Cost, currency)] : Array.Empty<string>(),
            c.Year.Readiness.Departures == 0 ? "–" : $"{c.Year.Readiness.Ready} of {c.Year.Readiness.Departures}", Number(c.Year.ShortDays.Count),
        ]));
        if (ranked.Length > MostRows)
        {
            page.Say($"{ranked.Length - MostRows} further combinations are in the table as CSV.", "small");
        }

        page.List(decided.SetUps.Where(s => s.Offered.Chosen.Missing.Count > 0 && ranked.All(c => c.Year.SetUp != s.Offered.SetUp)).Select(
            s => $"{s.Offered.SetUp.Name} is not ranked: no first cost is known for {string.Join(", ", s.Offered.Chosen.Missing)}."));
        if (ranked.Length > 1)
        {
            ReportFigure.Add(page, () => ReportCharts.Ranking(ranked, byLife ? $"life-cycle cost, {currency}" : $"{currency} a year"), "What each row of the table costs.");
        }
    }

    private static void Months(HtmlPage page, ComparisonRequest request, DecisionCell[] ranked, string currency)
    {
        // The first, the next rate plans or set-ups, and today.
        var chosen = ranked.DistinctBy(c => (c.Year.SetUp.Name, c.Year.RatePlan.Id)).Take(MostMonths - 1).ToList();
        if (request.Decision.Today is { } today && ranked.FirstOrDefault(c => c.Name == today) is { } now && chosen.All(c => c.Name != now.Name))
        {
            chosen.Add(now);
        }

        var zone = request.Case.Zone.Zone;
        page.Element("h3", "Month by month").List(chosen.Select(
            c => $"{c.Year.SetUp.Name}, {c.Year.RatePlan.Name}, {ReportWords.OfBehaviour(c.Year.Behaviour?.Name)}"), "ol");
        var periods = chosen[0].Year.BillWithCar.Periods;
        page.Table(
            $"Bill of house and car by billing period, {currency}; columns as numbered above",
            ["From", .. chosen.Select((_, i) => $">{Number(i + 1)}")],
            Enumerable.Range(0, periods.Count).Select(m => (IReadOnlyList<string>)
            [
                LocalDatePattern.Iso.Format(periods[m].Start.InZone(zone).Date),
                .. chosen.Select(c => m < c.Year.BillWithCar.Periods.Count ? ReportWords.Figure(c.Year.BillWithCar.Periods[m].Total, currency) : ""),
            ]));
        page.List(chosen.Select((c, i) =>
        {
            var dearest = c.Year.BillWithCar.Periods.MaxBy(p => p.Total)!;
            return $"Dearest billing period of column {i + 1}: from {LocalDatePattern.Iso.Format(dearest.Start.InZone(zone).Date)}, {ReportWords.Amount(dearest.Total, currency)}.";
        }));
        ReportFigure.Add(page, () => ReportCharts.Months(chosen, currency), "Bill of house and car by billing period.");
    }

    private static void ColdestWeek(HtmlPage page, ComparisonRequest request, DecisionResult decided, DecisionCell[] ranked)
    {
        var week = decided.Year.ColdestWeek;
        page.Element("h3", $"The {week.Wording}").Say(string.Create(
            CultureInfo.InvariantCulture,
            $"Seven days from {LocalDatePattern.Iso.Format(week.First)}, mean {week.MeanC:0.0} degC. Weather: {request.Case.Weather.Source}."));
        var shown = ranked.Where(c => c.Year.Readiness.Departures > 0).DistinctBy(c => c.Year.SetUp.Name).ToArray();
        if (shown.Length == 0)
        {
            return;
        }

        var departures = DeparturesOf(request.Case, week);
        page.Table(
            "Readiness by day: the best combination of each set-up at home",
            ["Set-up", .. Enumerable.Range(0, 7).Select(d => Day(week.First.PlusDays(d))), ">Ready"],
            shown.Select(c => (IReadOnlyList<string>)
            [
                c.Year.SetUp.Name,
                .. Enumerable.Range(0, 7).Select(d => Outcome(c.Year, week.First.PlusDays(d), departures)),
                $"{c.Year.ColdestWeek.Ready} of {c.Year.ColdestWeek.Departures}",
            ]));
        if (request.Case.Weather.IsTypical)
        {
            page.Say("A typical year holds no record cold: a colder week will come.", "small");
        }
    }

    private static HashSet<LocalDate> DeparturesOf(YearCase question, ColdestWeek week)
    {
        var zone = question.Zone.Zone;
        return [.. question.Calendar.Trips.Select(t => t.Departure.InZone(zone).Date).Where(d => d >= week.First && d < week.First.PlusDays(7))];
    }

    private static string Outcome(YearCell cell, LocalDate day, HashSet<LocalDate> departures) =>
        cell.ShortDays.FirstOrDefault(d => d.Date == day) is { } missed ? $"short {ReportWords.Plain(missed.TripShortfallKwh, 1)} kWh"
        : departures.Contains(day) ? "ready" : "–";

    private static string Day(LocalDate date) => LocalDatePattern.CreateWithInvariantCulture("ddd d").Format(date);

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
