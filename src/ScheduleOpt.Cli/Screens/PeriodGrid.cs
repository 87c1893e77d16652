using System.Globalization;
using System.Text;
using NodaTime;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Which period of a rate plan holds in each hour of a weekday and of a weekend day of each month.</summary>
internal sealed class PeriodGrid
{
    private readonly RatePlan plan;
    private readonly Dictionary<string, char> letters = new(StringComparer.Ordinal);

    private PeriodGrid(RatePlan plan)
    {
        this.plan = plan;
        Year = plan.EffectiveFrom is { Month: 1, Day: 1 } first ? first.Year : plan.EffectiveFrom.Year + 1;
        foreach (var period in plan.Calendar.Periods)
        {
            letters.Add(period, period.Where(char.IsLetter).Concat("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
                .Select(char.ToUpperInvariant).First(c => !letters.ContainsValue(c)));
        }
    }

    /// <summary>The heading over the hours, three columns for two of them.</summary>
    public static string Hours { get; } = string.Concat(Enumerable.Range(0, 24).Select(h => h % 2 == 0 ? $"{h:00}" : " "));

    /// <summary>The year whose prices are shown: the first whole one in which the plan holds.</summary>
    public int Year { get; }

    /// <summary>A Wednesday of each month.</summary>
    public PeriodGridDay Weekday { get; private set; } = null!;

    /// <summary>A Saturday of each month.</summary>
    public PeriodGridDay Weekend { get; private set; } = null!;

    /// <summary>Each period and season that occurs, with the lowest and highest price of one more kWh.</summary>
    public IReadOnlyList<PeriodGridEntry> Legend { get; private set; } = [];

    /// <summary>Whether a period begins or ends within an hour.</summary>
    public bool ChangesWithinHour { get; private set; }

    /// <summary>Works the grid out.</summary>
    public static PeriodGrid Of(RatePlan plan)
    {
        var grid = new PeriodGrid(plan);
        grid.Weekday = grid.Days("Weekday", IsoDayOfWeek.Wednesday);
        grid.Weekend = grid.Days("Weekend", IsoDayOfWeek.Saturday);
        grid.Legend = grid.Entries();
        grid.ChangesWithinHour = plan.Calendar.Windows.Any(w => w.FromMinute % 60 != 0 || w.ToMinute % 60 != 0);
        return grid;
    }

    /// <summary>The letter of a period.</summary>
    public char LetterOf(string period) => letters[period];

    private PeriodGridDay Days(string name, IsoDayOfWeek weekday)
    {
        var holidays = plan.Calendar.ObservedHolidays(new LocalDate(Year, 1, 1), new LocalDate(Year, 12, 31)).Select(h => h.Date).ToHashSet();
        return new PeriodGridDay(name, [.. Enumerable.Range(1, 12).Select(month =>
        {
            var date = Enumerable.Range(0, 4).Select(w => new LocalDate(Year, month, 10).Next(weekday).PlusWeeks(w % 3))
                .FirstOrDefault(d => !holidays.Contains(d), new LocalDate(Year, month, 10).Next(weekday));
            return (date.ToString("MMM", CultureInfo.InvariantCulture), Row(date));
        })]);
    }

    private string Row(LocalDate date)
    {
        var row = new StringBuilder();
        for (var hour = 0; hour < 24; hour++)
        {
            var instant = plan.Zone.AtLeniently(date + new LocalTime(hour, 0)).ToInstant();
            row.Append(letters[plan.Calendar.PeriodAt(instant)]);
            row.Append(hour % 2 == 0 ? "" : " ");
        }

        return row.ToString();
    }

    private PeriodGridEntry[] Entries()
    {
        if (plan.PriceSeriesNames.Count > 0)
        {
            // Its prices are published hour by hour and are not in the document.
            return [];
        }

        var start = StartOf(new LocalDate(Year, 1, 1));
        var spans = PriceScheduleBuilder.Build(plan, start, StartOf(new LocalDate(Year + 1, 1, 1))).Spans;
        var prices = new Dictionary<(string Period, string Season), (decimal Low, decimal High)>();
        var span = 0;

        // Day by day, because one price may hold over two seasons. After midnight a window still belongs to the day before: the first day
        // of a season tells nothing certain.
        for (var date = new LocalDate(Year, 1, 2); date.Year == Year; date = date.PlusDays(1))
        {
            var (from, until, season) = (StartOf(date), StartOf(date.PlusDays(1)), SeasonOf(date));
            if (season != SeasonOf(date.PlusDays(-1)))
            {
                continue;
            }

            while (span + 1 < spans.Count && spans[span + 1].Start <= from)
            {
                span++;
            }

            for (var i = span; i < spans.Count && spans[i].Start < until; i++)
            {
                var (key, price) = ((spans[i].Period, season), spans[i].ImportPerKwh);
                prices[key] = prices.TryGetValue(key, out var p) ? (Math.Min(p.Low, price), Math.Max(p.High, price)) : (price, price);
            }
        }

        return [.. plan.Calendar.Periods.SelectMany(period => plan.Calendar.Seasons
            .Where(season => prices.ContainsKey((period, season.Name)))
            .Select(season => new PeriodGridEntry(
                letters[period], period, season.Name, prices[(period, season.Name)].Low, prices[(period, season.Name)].High)))];
    }

    private Instant StartOf(LocalDate date) => plan.Zone.AtStartOfDay(date).ToInstant();

    private string SeasonOf(LocalDate date) =>
        plan.Calendar.Seasons.First(s => s.Ranges.Any(r => r.Contains(new AnnualDate(date.Month, date.Day)))).Name;
}
