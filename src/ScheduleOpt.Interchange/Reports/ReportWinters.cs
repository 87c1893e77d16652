using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Winters;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>The coldest week day by day, over all weather years and under stress.</summary>
internal static class ReportWinters
{
    /// <summary>Writes the part.</summary>
    public static void Write(HtmlPage page, ComparisonRequest request, DecisionResult decided, ShownUnits units)
    {
        var (winters, week) = (decided.Winters, decided.Winters?.ColdestWeek ?? decided.Year.ColdestWeek);
        page.Element("h3", $"The {week.Wording}").Say(string.Create(
            CultureInfo.InvariantCulture,
            $"Seven days from {LocalDatePattern.Iso.Format(week.First)}, mean {units.Warm(week.MeanC, 1)}. Weather: {(winters?.Weather[winters.ColdestYear].Source ?? request.Case.Weather.Source).TrimEnd('.', ' ')}."));
        Years(page, winters, units);

        // The best combination of each set-up at home.
        var shown = decided.Ranked.Concat(decided.Cells).Where(c => c.Year.Behaviour is not null).DistinctBy(c => c.Year.SetUp.Name).ToArray();
        var cells = winters?.Cells.ToDictionary(c => c.Name);
        Days(page, "Readiness by day: the best combination of each set-up at home", shown.Select(c => (c, cells?[c.Name].ColdestWeek ?? c.Year.ColdestWeekDays)), units);
        if (winters?.Stress is { } stress)
        {
            page.Element("h3", "The same week in a stated stress").Say(stress);
            Days(page, "Readiness by day under the stress", shown.Select(c => (c, cells![c.Name].Stressed!)), units);
        }
        else if (request.Case.Weather.IsTypical)
        {
            page.Say("A typical year holds no record cold: a colder week will come.", "small");
        }
    }

    private static void Years(HtmlPage page, WintersResult? winters, ShownUnits units)
    {
        if (winters is not { Weather.Count: > 1 })
        {
            return;
        }

        page.Table("Weather years", ["Weather", "Kind", "Coldest week from", $">Its mean, {units.Degree}"], winters.Weather.Select(w => (IReadOnlyList<string>)
        [
            w.Source.TrimEnd('.', ' '), w.IsTypical ? "typical" : "measured", LocalDatePattern.Iso.Format(w.ColdestWeek.First), ReportWords.Plain(units.Degrees(w.ColdestWeek.MeanC), 1),
        ]));
    }

    private static void Days(HtmlPage page, string caption, IEnumerable<(DecisionCell Cell, IReadOnlyList<DayReadiness> Days)> rows, ShownUnits units)
    {
        var all = rows.Where(r => r.Days.Count > 0).ToArray();
        if (all.Length == 0)
        {
            return;
        }

        page.Table(
            caption,
            ["<Set-up", .. all[0].Days.Select(d => $"{Day(d.Date)}, {units.Warm(d.MeanC, 0)}"), ">Ready"],
            all.Select(r => (IReadOnlyList<string>)
            [
                r.Cell.Year.SetUp.Name, .. r.Days.Select(Outcome), $"{r.Days.Sum(d => d.Readiness.Ready)} of {r.Days.Sum(d => d.Readiness.Departures)}",
            ]));
    }

    private static string Outcome(DayReadiness day) =>
        day.Readiness.Departures == 0 ? "–"
        : day.Readiness.Ready < day.Readiness.Departures ? $"short {ReportWords.Plain(day.Readiness.TripShortfallKwh, 1)} kWh"
        : "ready";

    private static string Day(LocalDate date) => LocalDatePattern.CreateWithInvariantCulture("ddd d").Format(date);
}
