using NodaTime;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Comparison.Year;

/// <summary>One calendar year by the household's clock, in metering intervals.</summary>
internal sealed class YearSpan
{
    public YearSpan(int year, HouseholdZone zone, Duration step)
    {
        Zone = zone;
        Step = step;
        Start = zone.StartOf(new LocalDate(year, 1, 1));
        End = zone.StartOf(new LocalDate(year + 1, 1, 1));
        Count = (int)Math.Ceiling((End - Start) / step);
        IsLeap = CalendarSystem.Iso.IsLeapYear(year);
        StandardOffset = zone.Zone.GetZoneInterval(Start).StandardOffset;
        StandardStart = new LocalDateTime(year, 1, 1, 0, 0).WithOffset(StandardOffset).ToInstant();
    }

    public HouseholdZone Zone { get; }

    public Instant Start { get; }

    public Instant End { get; }

    /// <summary>Length of a metering interval.</summary>
    public Duration Step { get; }

    /// <summary>Number of metering intervals.</summary>
    public int Count { get; }

    public bool IsLeap { get; }

    /// <summary>The offset in which weather and house load count their hours.</summary>
    public Offset StandardOffset { get; }

    /// <summary>Midnight of 1 January in standard time: an hour after the start where daylight time holds in January.</summary>
    public Instant StandardStart { get; }

    public Instant StartOf(int interval) => Start + (Step * interval);
}
