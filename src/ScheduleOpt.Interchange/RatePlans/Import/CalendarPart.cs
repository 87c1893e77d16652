using System.Text.Json.Nodes;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Turns a matrix of months and hours into periods and windows.</summary>
internal sealed class CalendarPart
{
    private const int MostPeriods = 12, MostWindows = 200;

    private readonly MonthMatrix matrix;
    private readonly SeasonMonths seasons;
    private readonly Dictionary<(int Season, int Period), string> names = [];
    private readonly bool bySeason;

    public CalendarPart(MonthMatrix matrix, SeasonMonths seasons)
    {
        (this.matrix, this.seasons) = (matrix, seasons);
        // Of many periods each season has a few: then the first of each season share a name.
        bySeason = matrix.Periods.Count() > MostPeriods;
        for (var s = 0; s < seasons.All.Count; s++)
        {
            var position = 0;
            foreach (var period in matrix.PeriodsIn(seasons.All[s].Months[0]))
            {
                names[(s, period)] = $"period {(bySeason ? position + 1 : period + 1)}";
                position++;
            }
        }
    }

    /// <summary>Names of the periods, in order.</summary>
    public IReadOnlyList<string> Names => [.. names.Values.Distinct().OrderBy(n => n.Length).ThenBy(n => n, StringComparer.Ordinal)];

    public bool IsExpressible => Names.Count <= MostPeriods && Windows().Count <= MostWindows;

    /// <summary>Name of a period in a season.</summary>
    public string Name(int season, int period) => names[(season, period)];

    /// <summary>Whether a period has the same name in all seasons.</summary>
    public bool SharesNames => !bySeason;

    /// <summary>Seasons in which a period holds at some time.</summary>
    public IEnumerable<int> SeasonsOf(int period) => Enumerable.Range(0, seasons.All.Count).Where(s => names.ContainsKey((s, period)));

    /// <summary>Writes periods and windows into a calendar.</summary>
    public void Write(JsonObject calendar, bool always)
    {
        if (Names.Count == 1 && !always)
        {
            return;
        }

        calendar["periods"] = new JsonArray([.. Names.Select(n => (JsonNode)n)]);
        if (Names.Count > 1)
        {
            calendar["windows"] = new JsonArray([.. Windows().Select(w => (JsonNode)w)]);
        }
    }

    private List<JsonObject> Windows()
    {
        var runs = new List<(string Period, int From, int To, bool IsWeekend, int Season)>();
        for (var s = 0; s < seasons.All.Count; s++)
        {
            foreach (var isWeekend in new[] { false, true })
            {
                var row = matrix.Row(seasons.All[s].Months[0], isWeekend);
                for (int from = 0, to; from < 24; from = to)
                {
                    for (to = from + 1; to < 24 && row[to] == row[from]; to++)
                    {
                    }

                    runs.Add((names[(s, row[from])], from, to, isWeekend, s));
                }
            }
        }

        // First those that weekdays and weekends share, then the seasons that share what is left.
        return
        [
            .. runs.GroupBy(r => (r.Period, r.From, r.To, r.Season))
                .Select(g => (g.Key, Days: g.Count() == 2 ? "both" : g.First().IsWeekend ? "weekend" : "weekday"))
                .GroupBy(w => (w.Key.Period, w.Key.From, w.Key.To, w.Days), w => w.Key.Season)
                .OrderBy(g => g.Min()).ThenBy(g => g.Key.Days, StringComparer.Ordinal).ThenBy(g => g.Key.From)
                .Select(g => Window(g.Key.Period, g.Key.From, g.Key.To, g.Key.Days, [.. g])),
        ];
    }

    private JsonObject Window(string period, int from, int to, string days, int[] inSeasons)
    {
        var window = new JsonObject { ["period"] = period };
        if (inSeasons.Length < seasons.All.Count)
        {
            window["seasons"] = new JsonArray([.. inSeasons.Select(s => (JsonNode)seasons.All[s].Name)]);
        }

        if (days != "both")
        {
            window["dayTypes"] = new JsonArray(days);
        }

        window["from"] = $"{from:00}:00";
        window["to"] = $"{to:00}:00";
        return window;
    }
}
