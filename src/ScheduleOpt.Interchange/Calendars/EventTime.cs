using NodaTime;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>A start or end as an event states it: a local time in a zone, or a date.</summary>
/// <param name="Local">The local time; midnight for a date.</param>
/// <param name="Zone">The zone it is read in: the event's, UTC, or the household's for a floating time or a date.</param>
/// <param name="IsDate">Whether only a date was stated.</param>
internal readonly record struct EventTime(LocalDateTime Local, DateTimeZone Zone, bool IsDate)
{
    /// <summary>The local time in another zone; a date stays the date.</summary>
    internal LocalDateTime In(DateTimeZone zone) =>
        IsDate || zone.Equals(Zone) ? Local : Local.InZoneLeniently(Zone).WithZone(zone).LocalDateTime;
}
