using NodaTime;
using NodaTime.TimeZones;

namespace ScheduleOpt.SecondBiller;

/// <summary>"Windows, dates and billing periods are local"; with <c>standard</c> "local time without daylight saving".</summary>
internal sealed class Clock(DateTimeZone zone, bool standard)
{
    public LocalDateTime At(Instant instant)
    {
        var interval = zone.GetZoneInterval(instant);
        return instant.WithOffset(standard ? interval.StandardOffset : interval.WallOffset).LocalDateTime;
    }

    /// <summary>Every instant at which the clock shows this time; where it skips it, the end of the gap.</summary>
    public IEnumerable<Instant> InstantsOf(LocalDateTime time)
    {
        var map = zone.MapLocal(time);
        if (standard)
        {
            yield return time.WithOffset(map.EarlyInterval.StandardOffset).ToInstant();
        }
        else if (map.Count == 0)
        {
            yield return map.LateInterval.Start;
        }
        else
        {
            yield return time.WithOffset(map.EarlyInterval.WallOffset).ToInstant();
            yield return time.WithOffset(map.LateInterval.WallOffset).ToInstant();
        }
    }

    /// <summary>"a time that the clock skips is the first instant after the gap ...; of a repeated one the first".</summary>
    public Instant First(LocalDateTime time) => InstantsOf(time).First();

    /// <summary>The date's first instant; a date without midnight begins after the gap.</summary>
    public Instant StartOf(LocalDate date) => First(date.AtMidnight());
}
