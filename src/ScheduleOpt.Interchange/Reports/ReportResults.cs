using System.Globalization;
using NodaTime.Text;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Winters;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Results: ranking, months.</summary>
internal static class ReportResults
{
    private const int MostRows = 25, MostMonths = 4;

    /// <summary>Writes the section.</summary>
    public static void Write(HtmlPage page, ComparisonRequest request, DecisionResult decided, ShownUnits units)
    {
        var currency = decided.Year.Currency;
        DecisionCell[] ranked = [.. decided.Ranked];
        page.Element("h2", "Results");
        Ranking(page, decided, ranked, currency);
        if (ranked.Length > 0)
        {
            Months(page, request, ranked, currency);
        }

        ReportWinters.Write(page, request, decided, units);
        ReportPublic.Write(page, decided, currency);
    }

    private static void Ranking(HtmlPage page, DecisionResult decided, DecisionCell[] ranked, string currency)
    {
        var byLife = ranked.Any(c => c.LifeCycle is not null);
        var several = decided.Winters is { Weather.Count: > 1 } ? decided.Winters.Cells.ToDictionary(c => c.Name) : null;
        string[] head =
        [
            ">Row", "<Set-up", "Rate plan", "Behaviour", $">House and car, {currency} a year", .. several is null ? Array.Empty<string>() : ["Least to most"],
            $">Car, {currency} a year", .. byLife ? [$">Life-cycle cost, {currency}"] : Array.Empty<string>(), ">Ready", several is null ? ">Days short" : ">Days short, most",
        ];
        page.Table("Ranking, cheapest first", head, ranked.Take(MostRows).Select((c, i) => (IReadOnlyList<string>)
        [
            Number(i + 1), c.Year.SetUp.Name, c.Year.RatePlan.Name, ReportWords.OfBehaviour(c.Year.Behaviour?.Name), .. Costs(c, several?[c.Name], currency),
            .. byLife ? [ReportWords.Figure(c.Cost, currency)] : Array.Empty<string>(),
            c.Year.Readiness.Departures == 0 ? "–" : $"{c.Year.Readiness.Ready} of {c.Year.Readiness.Departures}",
            several is null ? Number(c.Year.ShortDays.Count) : Number((int)several[c.Name].ShortDays.Most),
        ]));
        if (decided.Winters is { Weather.Count: > 1 } winters)
        {
            page.Say($"Amounts a year are the median of {winters.Weather.Count} weather years, with the least and the most of house and car; days short are the most of a year. Order, life-cycle cost and readiness are those of the first weather year.", "small");
        }

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

    private static string[] Costs(DecisionCell cell, WinterCell? years, string currency) => years is null
        ? [ReportWords.Figure(cell.Year.WholeHouseCost, currency), ReportWords.Figure(cell.Year.CarCost, currency)]
        :
        [
            ReportWords.Figure(years.WholeHouseCost.Median, currency),
            ReportWords.Range(years.WholeHouseCost, currency),
            ReportWords.Figure(years.CarCost.Median, currency),
        ];

    private static void Months(HtmlPage page, ComparisonRequest request, DecisionCell[] ranked, string currency)
    {
        // The first, the next rate plans or set-ups, and today.
        var chosen = ranked.DistinctBy(c => (c.Year.SetUp.Name, c.Year.RatePlan.Id)).Take(MostMonths - 1).ToList();
        if (request.Decision.Today is { } today && ranked.FirstOrDefault(c => c.Name == today) is { } now && chosen.All(c => c.Name != now.Name))
        {
            chosen.Add(now);
        }

        var zone = request.Case.Zone.Zone;
        page.Element("h3", "Month by month").List(chosen.Select(c => ReportWords.Of(c.Year)), "ol");
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

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
