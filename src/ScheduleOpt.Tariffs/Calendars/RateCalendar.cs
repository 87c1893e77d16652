using NodaTime;

namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>Seasons, day types, holidays and clock windows of a rate plan: which period holds when.</summary>
/// <remarks>The one place that knows it: bills and prices both walk it. The first window that holds gives the period; where none does, the default
/// period holds. Without a default period the windows must cover each minute exactly once, which <see cref="CalendarCoverage"/> checks.</remarks>
public sealed class RateCalendar
{
    private readonly byte[] seasonOfDay = new byte[SeasonDays.Count];
    private readonly int[] dayTypeOfWeekday = new int[8];
    private Lazy<HashSet<(DayKind Before, DayKind Today)>> neighbours;

    /// <summary>Makes a calendar.</summary>
    /// <param name="zone">Time zone of the windows and dates.</param>
    /// <param name="seasons">At least one.</param>
    /// <param name="dayTypes">At least one.</param>
    /// <param name="holidays">May be empty.</param>
    /// <param name="periods">Names of the periods, at least one.</param>
    /// <param name="windows">In order of precedence.</param>
    /// <param name="defaultPeriod">Name of the period where no window holds.</param>
    /// <param name="standardTime">Whether its clock is without daylight saving.</param>
    public RateCalendar(
        DateTimeZone zone,
        IReadOnlyList<Season> seasons,
        IReadOnlyList<DayType> dayTypes,
        IReadOnlyList<Holiday> holidays,
        IReadOnlyList<string> periods,
        IReadOnlyList<PeriodWindow> windows,
        string? defaultPeriod,
        bool standardTime = false)
    {
        (Zone, Seasons, DayTypes, Holidays, Periods, Windows, DefaultPeriod, StandardTime) =
            (zone, seasons, dayTypes, holidays, periods, windows, defaultPeriod, standardTime);

        WindowLayouts = [.. windows.Select(w => new WindowLayout(w, periods, seasons, dayTypes))];
        DefaultPeriodIndex = Math.Max(0, periods.IndexWhere(p => p == defaultPeriod));
        neighbours = new(() => CalendarCoverage.Neighbours(this));
        for (var day = 0; day < seasonOfDay.Length; day++)
        {
            var date = SeasonDays.At(day);
            seasonOfDay[day] = (byte)Math.Max(0, seasons.IndexWhere(s => s.Ranges.Any(r => r.Contains(date))));
        }

        for (var weekday = 1; weekday <= 7; weekday++)
        {
            dayTypeOfWeekday[weekday] = Math.Max(0, dayTypes.IndexWhere(t => t.Days.Contains((IsoDayOfWeek)weekday)));
        }
    }

    /// <summary>Time zone of the windows and dates.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>The seasons.</summary>
    public IReadOnlyList<Season> Seasons { get; }

    /// <summary>The day types.</summary>
    public IReadOnlyList<DayType> DayTypes { get; }

    /// <summary>The holidays.</summary>
    public IReadOnlyList<Holiday> Holidays { get; }

    /// <summary>Names of the periods.</summary>
    public IReadOnlyList<string> Periods { get; }

    /// <summary>The clock windows in order of precedence.</summary>
    public IReadOnlyList<PeriodWindow> Windows { get; }

    /// <summary>The period where no window holds; none where the windows cover everything.</summary>
    public string? DefaultPeriod { get; }

    /// <summary>Whether its clock is standard time all year; otherwise the legal one.</summary>
    public bool StandardTime { get; }

    /// <summary>The same calendar with other windows.</summary>
    public RateCalendar With(IReadOnlyList<PeriodWindow> windows) =>
        new(Zone, Seasons, DayTypes, Holidays, Periods, windows, DefaultPeriod, StandardTime) { neighbours = neighbours };

    /// <summary>The period that holds at an instant, events apart.</summary>
    public string PeriodAt(Instant instant)
    {
        var span = new CalendarWalk(this, instant, instant + Duration.FromSeconds(1), []).Spans(instant, instant + Duration.FromSeconds(1))[0];
        return Periods[span.Period];
    }

    /// <summary>The observed holidays of a range of dates, in order.</summary>
    /// <param name="from">First date, included.</param>
    /// <param name="until">Last date, included.</param>
    public IReadOnlyList<(LocalDate Date, Holiday Holiday)> ObservedHolidays(LocalDate from, LocalDate until) =>
        HolidayDates.Observed(Holidays, from, until);

    internal int SeasonOf(LocalDate date) => seasonOfDay[SeasonDays.IndexOf(date)];

    internal int DayTypeOf(IsoDayOfWeek weekday) => dayTypeOfWeekday[(int)weekday];

    internal int DayTypeNamed(string name) => DayTypes.IndexWhere(t => t.Name == name);

    /// <summary>The windows with their names looked up, in order of precedence.</summary>
    internal IReadOnlyList<WindowLayout> WindowLayouts { get; }

    internal int DefaultPeriodIndex { get; }

    /// <summary>The pairs of neighbouring days that occur, worked out when first asked for.</summary>
    internal IReadOnlySet<(DayKind Before, DayKind Today)> Neighbours => neighbours.Value;
}
