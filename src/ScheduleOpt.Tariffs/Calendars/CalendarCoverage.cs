using NodaTime;

namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>Checks that a calendar says exactly one thing about each minute of each day.</summary>
public static class CalendarCoverage
{
    // Weekdays and leap years repeat after 28 years: every pair of neighbouring days that can occur occurs here, apart from rare meetings with
    // Easter and with listed dates of other years.
    private const int FirstYear = 2001, Years = 40;

    // Of days that lie in no season or several, so many runs are named: no plan has more seasons.
    private const int MostRuns = 24;

    /// <summary>Days that lie in no season or in several, and days of the week with no day type or several.</summary>
    /// <param name="calendar">The calendar.</param>
    /// <param name="path">Where the document says it: empty for the plan's own.</param>
    public static IReadOnlyList<PlanFault> Days(RateCalendar calendar, string path = "")
    {
        var faults = new List<PlanFault>();
        for (int day = 0, end; day < SeasonDays.Count && faults.Count < MostRuns; day = end)
        {
            var holders = Holders(calendar, day);
            for (end = day + 1; end < SeasonDays.Count && Holders(calendar, end) == holders; end++)
            {
            }

            if (holders is not { Of: 1 })
            {
                var run = end == day + 1 ? $"{SeasonDays.At(day)} lies" : $"{SeasonDays.At(day)} to {SeasonDays.At(end - 1)} lie";
                faults.Add(new($"{path}/seasons", "Each day of the year, 29 February included, must lie in exactly one season.", $"{run} in {holders.Names}"));
            }
        }

        foreach (var weekday in Enum.GetValues<IsoDayOfWeek>().Where(d => d != IsoDayOfWeek.None))
        {
            var holders = calendar.DayTypes.Where(t => t.Days.Contains(weekday)).Select(t => t.Name).ToArray();
            if (holders.Length != 1)
            {
                faults.Add(new($"{path}/dayTypes", "Each day of the week must belong to exactly one day type.",
                    $"{weekday} belongs to {(holders.Length == 0 ? "none" : string.Join(", ", holders))}"));
            }
        }

        return faults;
    }

    /// <summary>Gaps and overlaps of the clock windows, each with its season and day type; none where there is a default period.</summary>
    /// <param name="calendar">The calendar.</param>
    /// <param name="path">Where the document says it: empty for the plan's own.</param>
    /// <remarks>Call it only for calendars whose <see cref="Days"/> are in order.</remarks>
    public static IReadOnlyList<PlanFault> Hours(RateCalendar calendar, string path = "")
    {
        if (calendar.DefaultPeriod is not null)
        {
            return [];
        }

        // The days before differ where windows run over midnight; a stretch is named once, after a day of the same kind if it is there too.
        var faults = new Dictionary<(DayKind Today, int Minute, string Windows), PlanFault>();
        var breakpoints = DaySegments.Breakpoints(calendar);
        foreach (var (before, today) in calendar.Neighbours.OrderBy(n => n.Before != n.Today))
        {
            var windows = DaySegments.Windows(calendar, before, today);
            for (int i = 0, end; i < breakpoints.Length; i = end)
            {
                var holding = HoldingAt(windows, breakpoints[i]);
                for (end = i + 1; end < breakpoints.Length && HoldingAt(windows, breakpoints[end]).SequenceEqual(holding); end++)
                {
                }

                if (holding.Count != 1)
                {
                    var to = end < breakpoints.Length ? breakpoints[end] : DaySegments.MinutesPerDay;
                    faults.TryAdd((today, breakpoints[i], Names(holding)), Fault(calendar, path, breakpoints[i], to, before, today, holding));
                }
            }
        }

        return [.. faults.OrderBy(f => (f.Key.Today.Season, f.Key.Today.DayType, f.Key.Minute)).Select(f => f.Value)];
    }

    /// <summary>The pairs of season and period that occur; a price is needed for each.</summary>
    internal static HashSet<(int Season, int Period)> Cells(RateCalendar calendar)
    {
        var cells = new HashSet<(int, int)>();
        var breakpoints = DaySegments.Breakpoints(calendar);
        foreach (var (before, today) in calendar.Neighbours)
        {
            foreach (var segment in DaySegments.Of(calendar, breakpoints, before, today))
            {
                cells.Add((segment.Season, segment.Period));
            }
        }

        return cells;
    }

    internal static HashSet<(DayKind Before, DayKind Today)> Neighbours(RateCalendar calendar)
    {
        LocalDate from = new(FirstYear, 1, 1), until = new(FirstYear + Years, 1, 1);
        var holidays = calendar.ObservedHolidays(from, until).ToDictionary(h => h.Date, h => calendar.DayTypeNamed(h.Holiday.DayType));
        var pairs = new HashSet<(DayKind, DayKind)>();
        DayKind? before = null;
        for (var date = from; date <= until; date = date.PlusDays(1))
        {
            var today = new DayKind(
                calendar.SeasonOf(date), holidays.TryGetValue(date, out var type) ? type : calendar.DayTypeOf(date.DayOfWeek));
            if (before is { } yesterday)
            {
                pairs.Add((yesterday, today));
            }

            before = today;
        }

        return pairs;
    }

    private static (int Of, string Names) Holders(RateCalendar calendar, int day)
    {
        var date = SeasonDays.At(day);
        var holders = calendar.Seasons.Where(s => s.Ranges.Any(r => r.Contains(date))).Select(s => s.Name).ToArray();
        return (holders.Length, holders.Length == 0 ? "none" : string.Join(", ", holders));
    }

    private static List<PeriodWindow> HoldingAt(List<WindowOfDay> windows, int minute) =>
        [.. windows.Where(w => w.HoldsAt(minute)).Select(w => w.Layout.Window)];

    private static string Names(List<PeriodWindow> windows) => string.Join(" and ", windows.Select(w => w.Period));

    private static PlanFault Fault(
        RateCalendar calendar, string path, int from, int to, DayKind before, DayKind today, List<PeriodWindow> holding)
    {
        var day = $"season {calendar.Seasons[today.Season].Name}, day type {calendar.DayTypes[today.DayType].Name}";
        var eve = before == today
            ? ""
            : $" (after a day of season {calendar.Seasons[before.Season].Name}, day type {calendar.DayTypes[before.DayType].Name})";
        var what = holding.Count == 0 ? "in no window" : $"in windows of {Names(holding)}";
        return new(
            $"{path}/windows",
            "Without a defaultPeriod the windows must cover each minute of each season and day type exactly once.",
            $"{day}{eve}: {Clock(from)} to {Clock(to)} is {what}");
    }

    private static string Clock(int minute) => $"{minute / 60:00}:{minute % 60:00}";
}
