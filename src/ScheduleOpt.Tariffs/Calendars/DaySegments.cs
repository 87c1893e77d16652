namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>A stretch of a local day with one season and period.</summary>
internal readonly record struct DaySegment(int FromMinute, int ToMinute, int Season, int Period);

/// <summary>Cuts one local day into stretches, knowing the day before because of windows that run over midnight.</summary>
internal static class DaySegments
{
    public const int MinutesPerDay = 1440;

    /// <summary>The minutes at which a period can change.</summary>
    public static int[] Breakpoints(RateCalendar calendar) =>
        [.. calendar.Windows.SelectMany(w => new[] { w.FromMinute, w.ToMinute }).Append(0).Where(m => m < MinutesPerDay).Distinct().Order()];

    public static DaySegment[] Of(RateCalendar calendar, int[] breakpoints, DayKind before, DayKind today)
    {
        var windows = Windows(calendar, before, today);
        var segments = new List<DaySegment>(breakpoints.Length);
        for (var i = 0; i < breakpoints.Length; i++)
        {
            var holding = windows.FirstOrDefault(w => w.HoldsAt(breakpoints[i]));
            var (season, period) = holding.Layout is null ? (today.Season, calendar.DefaultPeriodIndex) : (holding.Season, holding.Layout.Period);
            var end = i + 1 < breakpoints.Length ? breakpoints[i + 1] : MinutesPerDay;
            if (segments.Count > 0 && segments[^1].Season == season && segments[^1].Period == period)
            {
                segments[^1] = segments[^1] with { ToMinute = end };
            }
            else
            {
                segments.Add(new(breakpoints[i], end, season, period));
            }
        }

        return [.. segments];
    }

    /// <summary>The windows that can hold on a day, in order of precedence: its own, and those of the day before that run over midnight.</summary>
    public static List<WindowOfDay> Windows(RateCalendar calendar, DayKind before, DayKind today)
    {
        var windows = new List<WindowOfDay>();
        foreach (var layout in calendar.WindowLayouts)
        {
            if (layout.StartsOn(today))
            {
                windows.Add(new(layout, today.Season, StartsToday: true));
            }

            if (layout.Window.CrossesMidnight && layout.StartsOn(before))
            {
                windows.Add(new(layout, before.Season, StartsToday: false));
            }
        }

        return windows;
    }
}

/// <summary>A window as one day sees it.</summary>
/// <param name="Layout">The window.</param>
/// <param name="Season">Season of the day on which it starts.</param>
/// <param name="StartsToday">Whether it starts on this day or on the one before.</param>
internal readonly record struct WindowOfDay(WindowLayout Layout, int Season, bool StartsToday)
{
    public bool HoldsAt(int minute) => StartsToday ? Layout.HoldsOnItsDay(minute) : Layout.HoldsOnNextDay(minute);
}
