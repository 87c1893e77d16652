using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Uncertainty;
using ScheduleOpt.Comparison.Waterfalls;
using ScottPlot;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>The charts of a report, as SVG.</summary>
internal static class ReportCharts
{
    private const int MostBars = 15;
    private static readonly Color Dark = Color.FromHex("#23443b"), Light = Color.FromHex("#9bb8ae"), Warm = Color.FromHex("#b5652b");
    private static readonly Color[] Lines = [Color.FromHex("#23443b"), Color.FromHex("#b5652b"), Color.FromHex("#5a6f9c"), Color.FromHex("#777777")];

    // Told apart by their marks on a printer without colour; the drawing library writes no dashes into SVG.
    private static readonly MarkerShape[] Marks =
        [MarkerShape.FilledCircle, MarkerShape.FilledSquare, MarkerShape.FilledTriangleUp, MarkerShape.FilledDiamond];

    /// <summary>What the first cells cost, numbered by their place in the table.</summary>
    public static string Ranking(IReadOnlyList<DecisionCell> ranked, string unit)
    {
        var cells = ranked.Take(MostBars).ToArray();
        var plot = ChartImage.Plain();
        var bars = plot.Add.Bars(cells.Select((c, i) => new Bar { Position = -(i + 1), Value = (double)c.Cost, FillColor = i == 0 ? Dark : Light, LineWidth = 0 }).ToArray());
        bars.Horizontal = true;
        plot.Axes.Left.SetTicks([.. cells.Select((_, i) => -(i + 1.0))], [.. cells.Select((_, i) => Number(i + 1))]);
        plot.Axes.Bottom.Label.Text = unit;
        plot.Axes.Left.Label.Text = "row of the table";
        plot.Axes.AutoScale();
        return ChartImage.Svg(plot, "ranking", 90 + (24 * cells.Length));
    }

    /// <summary>Bills of house and car by billing period.</summary>
    public static string Months(IReadOnlyList<DecisionCell> cells, string currency)
    {
        var plot = ChartImage.Plain();
        for (var i = 0; i < cells.Count; i++)
        {
            var totals = cells[i].Year.BillWithCar.Periods.Select(p => (double)p.Total).ToArray();
            var line = plot.Add.Scatter([.. totals.Select((_, m) => m + 1.0)], totals);
            line.Color = Lines[i % Lines.Length];
            line.LineWidth = 2;
            line.LegendText = $"column {Number(i + 1)}";
            line.MarkerShape = Marks[i % Marks.Length];
            line.MarkerSize = 7;
        }

        plot.Axes.Bottom.Label.Text = "billing period";
        plot.Axes.Left.Label.Text = currency;
        plot.ShowLegend(Edge.Right);
        return ChartImage.Svg(plot, "months", 300);
    }

    /// <summary>The steps of a waterfall, numbered as in its table.</summary>
    public static string Steps(Waterfall waterfall, string currency)
    {
        var steps = waterfall.Steps.Where(s => s.Amount != 0).ToArray();
        var plot = ChartImage.Plain();
        var (bars, at) = (new List<Bar>(), 0.0);
        for (var i = 0; i < steps.Length; i++)
        {
            var next = at + (double)steps[i].Amount;
            bars.Add(new Bar { Position = i + 1, ValueBase = at, Value = next, FillColor = next > at ? Warm : Dark, LineWidth = 0 });
            at = next;
        }

        bars.Add(new Bar { Position = steps.Length + 1, Value = at, FillColor = Light, LineWidth = 0 });
        plot.Add.Bars(bars);
        plot.Axes.Bottom.SetTicks(
            [.. bars.Select(b => b.Position)], [.. steps.Select(s => ReportWords.Of(s.Part)), "all"]);
        plot.Axes.Bottom.TickLabelStyle.FontSize = 10;
        plot.Axes.Left.Label.Text = $"{currency} a year";
        plot.Axes.AutoScale();
        return ChartImage.Svg(plot, "steps", 300);
    }

    /// <summary>The bars of a tornado, widest on top.</summary>
    public static string Swings(Tornado tornado, string currency)
    {
        var plot = ChartImage.Plain();
        var bars = tornado.Bars.Select((b, i) => new Bar
        {
            Position = -(i + 1), ValueBase = (double)b.Least, Value = (double)b.Most, FillColor = b.FlipsRanking ? Warm : Light, LineWidth = 0,
        }).ToArray();
        plot.Add.Bars(bars).Horizontal = true;
        plot.Axes.Left.SetTicks([.. bars.Select(b => b.Position)], [.. tornado.Bars.Select(b => b.Input.Name)]);
        plot.Axes.Bottom.Label.Text = currency;
        var line = plot.Add.VerticalLine((double)tornado.Base.Amount);
        line.Color = Colors.Black;
        line.LineWidth = 1;
        plot.Axes.AutoScale();
        return ChartImage.Svg(plot, "swings", 90 + (30 * bars.Length));
    }

    private static string Number(int number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
