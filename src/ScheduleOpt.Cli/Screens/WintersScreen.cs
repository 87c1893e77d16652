using System.Globalization;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Winters;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.Requests;
using Spectre.Console;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Shows what other winters do to the best combination of each set-up, and its coldest week day by day.</summary>
internal sealed class WintersScreen(Screen screen, ComparisonRequest request, DecisionResult decided, Units units)
{
    /// <summary>Puts it on the page; nothing where it was not asked for.</summary>
    public void Draw()
    {
        if (decided.Winters is not { } winters)
        {
            return;
        }

        var best = request.Case.SetUps.Select(s => decided.Cells.Where(c => c.Year.SetUp == s).MinBy(c => c.Year.WholeHouseCost)!).ToArray();
        var cells = winters.Cells.ToDictionary(c => c.Name);
        screen.Blank();
        if (winters.Weather.Count > 1)
        {
            screen.Line($"Over {winters.Weather.Count} weather years: the best combination of each set-up", "bold");
            Costs(best, cells);
        }

        var week = winters.ColdestWeek;
        screen.Line($"The {week.Wording}, from {week.First.ToString("d MMM", CultureInfo.InvariantCulture)}, mean {units.Warm(week.MeanC)}", "bold");
        Days(best, c => cells[c.Name].ColdestWeek);
        if (winters.Stress is { } stress)
        {
            screen.Say(stress);
            Days(best, c => cells[c.Name].Stressed!);
        }
    }

    private void Costs(DecisionCell[] best, Dictionary<CellName, WinterCell> cells)
    {
        var table = Columns.Of("Set-up", $">House, {decided.Year.Currency}:\nmedian", ">least", ">most", ">Days short:\nmost");
        foreach (var cell in best.Select(c => cells[c.Name]))
        {
            table.Row(
                null, cell.Name.SetUp, Figures.Amount(cell.WholeHouseCost.Median), Figures.Amount(cell.WholeHouseCost.Least), Figures.Amount(cell.WholeHouseCost.Most),
                Figures.Whole((double)cell.ShortDays.Most));
        }

        screen.Draw(table);
    }

    private void Days(DecisionCell[] best, Func<DecisionCell, IReadOnlyList<DayReadiness>> of)
    {
        var rows = best.Select(c => (Cell: c, Days: of(c))).Where(r => r.Days.Count > 0).ToArray();
        if (rows.Length == 0)
        {
            return;
        }

        var table = Columns.Of(["Short, kWh", .. rows[0].Days.Select(d => $">{d.Date.ToString("ddd", CultureInfo.InvariantCulture)}\n{units.Degrees(d.MeanC)}{units.Degree}")]);
        foreach (var (cell, days) in rows)
        {
            table.Row(default(Style?), [cell.Year.SetUp.Name, .. days.Select(Outcome)]);
        }

        screen.Draw(table);
    }

    private static string Outcome(DayReadiness day) =>
        day.Readiness.Departures == 0 ? "-" : day.Readiness.Ready == day.Readiness.Departures ? "ready" : Figures.Number(day.Readiness.TripShortfallKwh);
}
