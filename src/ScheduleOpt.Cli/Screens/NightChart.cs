using System.Text;
using NodaTime;
using ScheduleOpt.Interchange.Answers;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Price, charging, battery and temperature over the nights to the second departure, in block characters.</summary>
internal sealed class NightChart
{
    private const int LabelWidth = 13, MostColumns = Screen.Width - LabelWidth - 1, LeastTick = 6;
    private const string Heights = "▁▂▃▄▅▆▇█";
    private static readonly int[] StepsInMinutes = [15, 30, 60, 120, 240];
    private static readonly int[] TicksInHours = [1, 2, 3, 4, 6, 12, 24, 48];

    private readonly Screen screen;
    private readonly ScheduleAnswer answer;
    private readonly CarAnswer car;
    private readonly LocalTimes times;
    private readonly Units units;
    private readonly ChartColumn[] columns;

    public NightChart(Screen screen, ScheduleAnswer answer, CarAnswer car, LocalTimes times, Units units)
    {
        (this.screen, this.answer, this.car, this.times, this.units) = (screen, answer, car, times, units);
        var span = answer.Request.Span;
        var start = span.Start;
        var end = car.Departures.Count switch
        {
            0 => Instant.Min(start + Duration.FromHours(24), span.End),
            1 => car.Departures[0].Departure,
            _ => car.Departures[1].Departure,
        };
        var minutes = StepsInMinutes.FirstOrDefault(m => (end - start).TotalMinutes / m < MostColumns, StepsInMinutes[^1]);
        columns = ChartColumn.Of(car, start, end, Duration.FromMinutes(minutes)).Take(MostColumns).ToArray();
    }

    /// <summary>Puts the chart on the page.</summary>
    public void Draw()
    {
        var ticks = Ticks();
        screen.Line(Row("", Marks(ticks, Days(ticks))).TrimEnd(), "dim");
        screen.Line(Row("", Marks(ticks, i => times.Clock(columns[i].Start))).TrimEnd(), "dim");
        var prices = columns.Where(c => c.AtHome > 0).Select(c => c.Price).DefaultIfEmpty(0).ToArray();
        var (low, high) = (prices.Min(), prices.Max());
        screen.Line(Row("Price", Across(c => c.AtHome > 0 ? Height(c.Price, low, high) : ' ')), "cyan");
        screen.Line(Row("Charging", Across(Charging)), "green");
        screen.Line(Row("Battery, %", Marks(ticks, i => Figures.Whole(100 * columns[i].StoredKwh / car.UsableKwh))).TrimEnd());
        screen.Line(Row($"Outdoors, {units.Degree}", Marks(ticks, i => units.Degrees(columns[i].TemperatureC))).TrimEnd());
        screen.Line($"{Row("", Legend(low, high))}");
        screen.Line(Row("", "█ charging   ─ plugged in, waiting   blank: away"));
    }

    private static string Row(string label, string cells) => label.PadRight(LabelWidth) + cells;

    private static char Charging(ChartColumn column) => column switch
    {
        { On: > 0.75 } => '█',
        { On: > 0.5 } => '▆',
        { On: > 0.25 } => '▄',
        { On: > 0.01 } => '▂',
        { AtHome: > 0.5 } => '─',
        _ => ' ',
    };

    private static char Height(double price, double low, double high) =>
        high - low < 1e-9 ? Heights[3] : Heights[1 + (int)Math.Round((Heights.Length - 2) * (price - low) / (high - low))];

    private string Legend(double low, double high)
    {
        var currency = answer.Prices.Currency;
        var names = answer.Prices.Spans
            .Where(s => s.Start < columns[^1].End)
            .GroupBy(s => s.ImportPerKwh)
            .ToDictionary(g => (double)g.Key, g => g.First().Period);
        string Of(double price) => $"{Height(price, low, high)} {(names.TryGetValue(price, out var n) && n.Length > 0 ? n + " " : "")}{Figures.Price((decimal)price)}";
        return high - low < 1e-9 ? $"{Of(low)} {currency}/kWh" : $"{Of(low)}   {Of(high)} {currency}/kWh";
    }

    private string Across(Func<ChartColumn, char> cell)
    {
        var row = new StringBuilder(columns.Length);
        foreach (var column in columns)
        {
            row.Append(cell(column));
        }

        return row.ToString();
    }

    /// <summary>The columns that begin on a full number of hours by the clock, far enough apart for their marks.</summary>
    private List<int> Ticks()
    {
        var perHour = 1 / (columns[0].End - columns[0].Start).TotalHours;
        var hours = TicksInHours.FirstOrDefault(h => h * perHour >= LeastTick, TicksInHours[^1]);
        var ticks = new List<int>();
        for (var i = 0; i < columns.Length; i++)
        {
            var local = columns[i].Start.InZone(times.Zone).LocalDateTime;
            var room = ticks.Count == 0 || i - ticks[^1] >= LeastTick;
            if (room && local.Minute == 0 && local.Hour % Math.Min(hours, 24) == 0)
            {
                ticks.Add(i);
            }
        }

        return ticks;
    }

    /// <summary>The day over the first tick and over each midnight: with its date where there is room until the next one.</summary>
    private Func<int, string> Days(List<int> ticks)
    {
        var days = ticks.Where(t => t == ticks[0] || columns[t].Start.InZone(times.Zone).Hour == 0).ToList();
        return tick =>
        {
            var at = days.IndexOf(tick);
            var room = at + 1 < days.Count ? days[at + 1] - tick : MostColumns - tick;
            var day = at < 0 ? "" : times.Day(columns[tick].Start);
            return day.Length < room ? day : day[..Math.Min(day.Length, "Mon".Length)];
        };
    }

    private static string Marks(List<int> ticks, Func<int, string> mark)
    {
        var row = new StringBuilder();
        foreach (var tick in ticks)
        {
            var text = mark(tick);
            if (tick >= row.Length && tick + text.Length <= MostColumns)
            {
                row.Append(' ', tick - row.Length).Append(text);
            }
        }

        return row.ToString();
    }
}
