namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>A clock window with its names looked up once.</summary>
internal sealed class WindowLayout(
    PeriodWindow window, IReadOnlyList<string> periods, IReadOnlyList<Season> seasons, IReadOnlyList<DayType> dayTypes)
{
    private readonly bool[] seasonsMatched = [.. seasons.Select(s => window.Seasons.Count == 0 || window.Seasons.Contains(s.Name))];
    private readonly bool[] dayTypesMatched = [.. dayTypes.Select(t => window.DayTypes.Count == 0 || window.DayTypes.Contains(t.Name))];

    public PeriodWindow Window { get; } = window;

    /// <summary>Index of its period.</summary>
    public int Period { get; } = Math.Max(0, periods.IndexWhere(p => p == window.Period));

    /// <summary>Whether it starts on days of a kind.</summary>
    public bool StartsOn(DayKind day) => seasonsMatched[day.Season] && dayTypesMatched[day.DayType];

    /// <summary>Whether it holds at a minute of the day on which it starts.</summary>
    public bool HoldsOnItsDay(int minute) => minute >= Window.FromMinute && (Window.CrossesMidnight || minute < Window.ToMinute);

    /// <summary>Whether it holds at a minute of the day after the one on which it starts.</summary>
    public bool HoldsOnNextDay(int minute) => Window.CrossesMidnight && minute < Window.ToMinute;
}
