using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Homes.Panels;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Shows a year: set-ups x rate plans x behaviours, the best rate plan of each set-up, its coldest week.</summary>
internal sealed class YearScreen(Screen screen, ComparisonRequest request, DecisionResult decided, Units units)
{
    // Beyond this number of behaviours side by side a page is too narrow.
    private const int MostSideBySide = 2;

    private readonly YearResult result = decided.Year;

    /// <summary>Puts the year on the page, without cautions.</summary>
    public void Draw()
    {
        Question();
        foreach (var setUp in request.Case.SetUps)
        {
            var cells = result.Cells.Where(c => c.SetUp == setUp).ToArray();
            screen.Blank();
            screen.Line(setUp.Name, "bold");
            if (setUp.Supply is null)
            {
                PublicAlone(cells);
                continue;
            }

            if (request.Case.Behaviours.Count <= MostSideBySide)
            {
                screen.Draw(YearTable.SideBySide(cells, result.Currency));
                foreach (var behaviour in cells.GroupBy(c => c.Behaviour))
                {
                    Summary([.. behaviour]);
                }
            }
            else
            {
                screen.Draw(YearTable.OneBelowAnother(cells, result.Currency));
                screen.Say($"Away charging, {result.Currency}: {Each(cells, of => Range(of, c => (double)c.Away.Cost, v => Figures.Amount((decimal)v)))}.");
                screen.Say(
                    $"Ready in the coldest week, of {cells[0].ColdestWeek.Departures} departures: "
                    + $"{Each(cells, of => Range(of, c => c.ColdestWeek.Ready, Figures.Whole))}.");
            }
        }

        screen.Blank();
        Best();
        new WintersScreen(screen, request, decided, units).Draw();
        if (Calibration.Of(request, decided) is { } calibration)
        {
            screen.Say($"House load: {request.House.Words}");
            screen.Say(calibration.Words);
        }

        foreach (var panel in decided.SetUps.Where(s => s.Panel is not null))
        {
            screen.Say($"Panel, {panel.Offered.SetUp.Name}: {Words.Of(panel.Panel!.Outcome)}.{string.Concat((panel.Panel.HouseKva is null ? panel.Panel.Reasons : []).Select(r => $" {r}"))}");
        }

        if (decided.SetUps.Any(s => s.Panel is not null))
        {
            screen.Say(PanelEstimate.Caution);
        }

        var warnings = request.Warnings.Concat(result.Warnings).ToArray();
        if (warnings.Length > 0)
        {
            screen.Blank();
            screen.List(warnings);
        }
    }

    private void Question()
    {
        foreach (var utility in request.Case.RatePlans.GroupBy(p => p.Utility))
        {
            screen.Say($"Rate plans of {utility.Key}: {string.Join(", ", utility.Select(p => p.Name))}.");
        }

        var week = result.ColdestWeek;
        screen.Say(
            $"Whole house: the year's bill with the car, and away charging. The car's share: what of the bill it adds. The {week.Wording} begins "
            + $"on {week.First:d MMM} with a mean of {units.Warm(week.MeanC)}.");
        foreach (var behaviour in request.Case.Behaviours)
        {
            screen.Say($"{Words.Capital(Words.Of(behaviour))}: {behaviour.Description}.");
        }
    }

    /// <summary>The car's energy is the same whatever the plan, so only the house's bill differs.</summary>
    private void PublicAlone(YearCell[] cells)
    {
        var best = cells.MinBy(c => c.WholeHouseCost)!;
        screen.Say(
            $"BEST: {best.RatePlan.Name}, {Figures.Money(best.WholeHouseCost, result.Currency)} for the whole house; of that away charging "
            + $"{Figures.Kwh(best.Away.Kwh)}, {Figures.Money(best.Away.Cost, result.Currency)}. Dearest plan: "
            + $"{Figures.Money(cells.Max(c => c.WholeHouseCost), result.Currency)}.");
        if (best.Away.Sessions is { } year)
        {
            screen.Say(
                $"{year.Sessions} sessions of {Figures.Kwh(year.Session.MeterKwh)}, {Figures.Whole(year.Session.Minutes)} min and {Figures.Money(year.Session.Cost, result.Currency)} each"
                + (year.DetourHours > 0 ? $"; {Figures.Number(year.DetourHours)} h a year on the way." : "."));
        }
    }

    private void Summary(YearCell[] cells)
    {
        var first = cells[0];
        var away = Range(cells, c => c.Away.Kwh, Figures.Number) + " kWh";
        var cost = Range(cells, c => (double)c.Away.Cost, v => Figures.Amount((decimal)v)) + " " + result.Currency;
        var ready = Range(cells, c => c.Readiness.Share ?? 1, v => Figures.Share(v));
        var week = first.ColdestWeek;
        screen.Say(
            $"{Words.Capital(Words.Of(first.Behaviour))}: away charging {away}, {cost}; ready for {ready} of {first.Readiness.Departures} departures, "
            + $"in the coldest week for {Range(cells, c => c.ColdestWeek.Ready, Figures.Whole)} of {week.Departures}.");
    }

    private void Best()
    {
        var best = result.Ranked.First();
        screen.Say(
            $"Least of all: {best.SetUp.Name}, {best.RatePlan.Name}, {Words.Of(best.Behaviour)}: "
            + $"{Figures.Money(best.WholeHouseCost, result.Currency)} a year for the whole house.",
            "bold green");
        if (result.Cells.FirstOrDefault(c => c.SetUp == best.SetUp && c.RatePlan == best.RatePlan && c.Behaviour?.Name == "onArrival") is { } other
            && other.Behaviour != best.Behaviour)
        {
            screen.Say($"Charging on arrival there: {Figures.Money(other.WholeHouseCost - best.WholeHouseCost, result.Currency)} more.");
        }

        if (decided.Cells.All(c => c.LifeCycle is null))
        {
            screen.Say("What a set-up costs to install is not in these figures.");
            return;
        }

        LifeCycle();
    }

    private void LifeCycle()
    {
        var years = request.Decision.LifeCycle!.Terms.Study.Years;
        screen.Blank();
        screen.Line($"By life-cycle cost over {years} years, install included: the best of each set-up", "bold");
        var table = Columns.Of("Set-up", "Rate plan", "Behaviour", $">Life-cycle\ncost, {result.Currency}", ">Saved\nagainst today");
        foreach (var cell in decided.Ranked.DistinctBy(c => c.Year.SetUp.Name))
        {
            table.Row(
                null, cell.Year.SetUp.Name, cell.Year.RatePlan.Name, Words.Of(cell.Year.Behaviour), Figures.Amount(cell.LifeCycle!.Alternative.Total), Figures.Amount(cell.LifeCycle.NetSavings));
        }

        screen.Draw(table);
        foreach (var missing in decided.SetUps.Where(s => s.Offered.Chosen.Missing.Count > 0))
        {
            screen.Say($"{missing.Offered.SetUp.Name} is not ranked: no first cost is known for {string.Join(", ", missing.Offered.Chosen.Missing)}.");
        }
    }

    private static string Each(YearCell[] cells, Func<YearCell[], string> value) =>
        string.Join(", ", cells.GroupBy(c => c.Behaviour).Select(b => $"{Words.Of(b.Key)} {value([.. b])}"));

    private static string Range(YearCell[] cells, Func<YearCell, double> value, Func<double, string> write)
    {
        var (low, high) = (write(cells.Min(value)), write(cells.Max(value)));
        return low == high ? low : $"{low} to {high}";
    }
}
