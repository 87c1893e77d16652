using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>Hours of the local clock that belong to a period.</summary>
/// <param name="Period">Name of the period.</param>
/// <param name="Seasons">Seasons in which it applies; empty for all.</param>
/// <param name="DayTypes">Day types on which it applies; empty for all.</param>
/// <param name="FromMinute">First minute of the local day, included, 0 to 1439.</param>
/// <param name="ToMinute">Minute at which it ends, 0 to 1440; not after <paramref name="FromMinute"/> where the window runs over midnight.</param>
/// <remarks>Season and day type are those of the day on which the window starts, after midnight too. The window follows the clock's labels: an
/// hour that the clock skips is not in it, one that the clock repeats is in it twice.</remarks>
public sealed record PeriodWindow(
    string Period, IReadOnlyList<string> Seasons, IReadOnlyList<string> DayTypes, int FromMinute, int ToMinute)
{
    /// <summary>Choices under which it is there; none: always.</summary>
    public Condition? When { get; init; }

    /// <summary>Whether it runs over midnight into the next day.</summary>
    public bool CrossesMidnight => ToMinute < FromMinute;
}
