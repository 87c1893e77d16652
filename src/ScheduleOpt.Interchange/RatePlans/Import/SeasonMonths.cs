using System.Globalization;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Months that look the same make a season: the database knows calendar months alone.</summary>
internal sealed class SeasonMonths
{
    private static readonly string[] MonthNames = CultureInfo.InvariantCulture.DateTimeFormat.AbbreviatedMonthNames[..12];

    private readonly List<(string Name, List<int> Months)> seasons;

    /// <param name="pattern">What a month (0 to 11) looks like.</param>
    public SeasonMonths(Func<int, string> pattern) =>
        seasons = [.. Enumerable.Range(0, 12).GroupBy(pattern).Select(g => (Name([.. g]), g.ToList()))];

    /// <summary>Names and months (0 to 11) of the seasons.</summary>
    public IReadOnlyList<(string Name, List<int> Months)> All => seasons;

    public bool IsOne => seasons.Count == 1;

    /// <summary>Names of the seasons whose first month passes a test; none where it is all of them, which is said by leaving it out.</summary>
    public JsonArray? Where(Func<int, bool> holds)
    {
        var names = seasons.Where(s => holds(s.Months[0])).Select(s => s.Name).ToArray();
        return names.Length == seasons.Count ? null : new JsonArray([.. names.Select(n => (JsonNode)n)]);
    }

    public JsonArray ToJson() => new([.. seasons.Select(s => (JsonNode)new JsonObject { ["name"] = s.Name, ["ranges"] = Ranges(s.Months) })]);

    private static string Name(List<int> months)
    {
        var runs = Runs(months);
        var name = string.Join(' ', runs.Select(r => r.First == r.Last ? MonthNames[r.First] : $"{MonthNames[r.First]}-{MonthNames[r.Last]}"));
        return name.Length <= 40 ? name : string.Join(' ', months.Select(m => (m + 1).ToString(CultureInfo.InvariantCulture)));
    }

    private static JsonArray Ranges(List<int> months) => new([.. Runs(months).Select(r => (JsonNode)new JsonObject
    {
        ["from"] = $"{r.First + 1:00}-01",
        // 29 February included.
        ["to"] = $"{r.Last + 1:00}-{NodaTime.CalendarSystem.Iso.GetDaysInMonth(2000, r.Last + 1)}",
    })]);

    private static List<(int First, int Last)> Runs(List<int> months)
    {
        var runs = new List<(int First, int Last)>();
        foreach (var month in months)
        {
            if (runs.Count > 0 && runs[^1].Last == month - 1)
            {
                runs[^1] = (runs[^1].First, month);
            }
            else
            {
                runs.Add((month, month));
            }
        }

        return runs;
    }
}
