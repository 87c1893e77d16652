using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Local times; the zone's abbreviation stands beside them where the clocks change near the time shown.</summary>
internal sealed class LocalTimes
{
    private static readonly LocalDateTimePattern Full = LocalDateTimePattern.CreateWithInvariantCulture("ddd dd MMM HH':'mm");
    private static readonly LocalDateTimePattern DayOnly = LocalDateTimePattern.CreateWithInvariantCulture("ddd dd MMM");
    private static readonly LocalDateTimePattern ClockOnly = LocalDateTimePattern.CreateWithInvariantCulture("HH':'mm");
    private readonly bool namesZone;

    /// <summary>Makes the times of a zone.</summary>
    /// <param name="zone">The household's zone.</param>
    /// <param name="from">Start of what is shown.</param>
    /// <param name="until">Its end.</param>
    public LocalTimes(DateTimeZone zone, Instant from, Instant until)
    {
        Zone = zone;
        namesZone = zone.GetZoneInterval(from - Duration.FromDays(1)) != zone.GetZoneInterval(until + Duration.FromDays(1));
    }

    /// <summary>The zone.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>Day, date and time.</summary>
    public string Of(Instant instant) => Full.Format(Local(instant)) + Abbreviation(instant);

    /// <summary>Day and date.</summary>
    public string Day(Instant instant) => DayOnly.Format(Local(instant));

    /// <summary>The time alone.</summary>
    public string Clock(Instant instant) => ClockOnly.Format(Local(instant));

    /// <summary>From one time to another, the date of the end only where it differs.</summary>
    public string Span(Instant from, Instant until)
    {
        var sameDay = Local(from).Date == Local(until).Date;
        return $"{Of(from)} to {(sameDay ? Clock(until) + Abbreviation(until) : Of(until))}";
    }

    /// <summary>A time in the minute that has begun when it is over: ready a little later is never shown as ready earlier.</summary>
    public string NotBefore(Instant instant) => Of(RoundedUp(instant));

    /// <summary>The same, the time alone where it is on the day of another.</summary>
    public string NotBefore(Instant instant, Instant other)
    {
        var at = RoundedUp(instant);
        return Local(at).Date == Local(other).Date ? Clock(at) + Abbreviation(at) : Of(at);
    }

    /// <summary>Day, date, year and time with the zone's name: for the head of an answer.</summary>
    public string InFull(Instant instant) => string.Create(
        CultureInfo.InvariantCulture, $"{Local(instant):ddd d MMM uuuu, HH:mm} ({Zone.Id}{Abbreviation(instant)})");

    private static Instant RoundedUp(Instant instant)
    {
        var minutes = (long)Math.Ceiling((instant - NodaConstants.UnixEpoch).TotalMinutes);
        return NodaConstants.UnixEpoch + Duration.FromMinutes(minutes);
    }

    private LocalDateTime Local(Instant instant) => instant.InZone(Zone).LocalDateTime;

    private string Abbreviation(Instant instant) => namesZone ? " " + Zone.GetZoneInterval(instant).Name : "";
}
