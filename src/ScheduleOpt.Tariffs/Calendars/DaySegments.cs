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
        var segments = new List<DaySegment>(breakpoints.Length);
        for (var i = 0; i < breakpoints.Length; i++)
        {
            var (season, period) = At(calendar, breakpoints[i], before, today);
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

    private static (int Season, int Period) At(RateCalendar calendar, int minute, DayKind before, DayKind today)
    {
        foreach (var window in calendar.Windows)
        {
            if (window.HoldsOnItsDay(minute) && window.Applies(calendar.Seasons[today.Season], calendar.DayTypes[today.DayType]))
            {
                return (today.Season, calendar.PeriodNamed(window.Period));
            }

            if (window.HoldsOnNextDay(minute) && window.Applies(calendar.Seasons[before.Season], calendar.DayTypes[before.DayType]))
            {
                return (before.Season, calendar.PeriodNamed(window.Period));
            }
        }

        return (today.Season, Math.Max(0, calendar.PeriodNamed(calendar.DefaultPeriod ?? calendar.Periods[0])));
    }
}
