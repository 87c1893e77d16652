using ScheduleOpt.Comparison.Year;
using Spectre.Console;

namespace ScheduleOpt.Cli.Screens;

/// <summary>The table of one set-up, cheapest rate plan first; the best carries the word.</summary>
internal static class YearTable
{
    private const string Best = "BEST";
    private static readonly Style BestStyle = new(Color.Green, decoration: Decoration.Bold);

    /// <summary>A row a rate plan, its behaviours beside one another.</summary>
    public static Table SideBySide(IReadOnlyList<YearCell> cells, string currency)
    {
        var behaviours = cells.Select(c => c.Behaviour).Distinct().ToArray();
        var table = Columns.Of([
            "Rate plan",
            .. behaviours.SelectMany(b => new[] { $">{Words.Capital(Words.Of(b))}:\nhouse, {currency}", ">car's\nshare" }),
            "",
        ]);
        var least = cells.Min(c => c.WholeHouseCost);
        foreach (var plan in cells.GroupBy(c => c.RatePlan).OrderBy(p => p.Min(c => c.WholeHouseCost)))
        {
            var best = plan.Min(c => c.WholeHouseCost) == least;
            table.Row(
                best ? BestStyle : default(Style?),
                [plan.Key.Name, .. plan.SelectMany(c => new[] { Figures.Amount(c.WholeHouseCost), Figures.Amount(c.CarShare) }), best ? Best : ""]);
        }

        return table;
    }

    /// <summary>A row a rate plan and behaviour.</summary>
    public static Table OneBelowAnother(IReadOnlyList<YearCell> cells, string currency)
    {
        var table = Columns.Of("Rate plan", "Behaviour", $">House,\n{currency}", ">Car's\nshare", ">Away,\nkWh", ">Ready", "");
        var least = cells.Min(c => c.WholeHouseCost);
        foreach (var plan in cells.GroupBy(c => c.RatePlan).OrderBy(p => p.Min(c => c.WholeHouseCost)))
        {
            var name = plan.Key.Name;
            foreach (var cell in plan.OrderBy(c => c.WholeHouseCost))
            {
                var best = cell.WholeHouseCost == least;
                table.Row(
                    best ? BestStyle : default(Style?),
                    name,
                    Words.Of(cell.Behaviour),
                    Figures.Amount(cell.WholeHouseCost),
                    Figures.Amount(cell.CarShare),
                    Figures.Number(cell.Away.Kwh),
                    Figures.Share(cell.Readiness.Share),
                    best ? Best : "");
                name = "";
            }
        }

        return table;
    }
}
