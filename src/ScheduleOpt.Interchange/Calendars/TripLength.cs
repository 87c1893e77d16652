using NodaTime;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>How an event states its end, and so where each of its instances ends. RFC 5545, sections 3.6.1 and 3.8.5.3.</summary>
internal abstract record TripLength
{
    /// <summary>When a driving day without clock times begins.</summary>
    internal static readonly LocalTime DrivingDayBegins = new(8, 0);

    /// <summary>When a driving day without clock times ends.</summary>
    internal static readonly LocalTime DrivingDayEnds = new(18, 0);

    /// <summary>Departure and return of the instance with this local start.</summary>
    internal abstract TripTimes Of(LocalDateTime local, HouseholdZone zone);

    /// <summary>An upper bound of the length. [days]</summary>
    internal abstract int Days { get; }

    /// <summary>The instant that a start means in RFC 5545: the first occurrence, or shifted forward out of a gap.</summary>
    internal static Instant Began(LocalMoment departure, HouseholdZone zone) =>
        departure.Reading == LocalReading.Skipped ? departure.Shown.InZoneStrictly(zone.Zone).ToInstant() : departure.Instant;

    private static LocalMoment At(Instant instant, HouseholdZone zone) =>
        new(instant, instant.InZone(zone.Zone).LocalDateTime, LocalReading.Unique);

    /// <summary>From DTEND: every instance lasts exactly as long as the first.</summary>
    internal sealed record Exact(Duration Length) : TripLength
    {
        internal override int Days => Length.Days + 1;

        internal override TripTimes Of(LocalDateTime local, HouseholdZone zone)
        {
            var departure = zone.Departure(local);
            return new(departure, At(Began(departure, zone) + Length, zone));
        }
    }

    /// <summary>From DURATION: days by the calendar, hours exactly.</summary>
    internal sealed record Nominal(NominalDuration Length) : TripLength
    {
        internal override int Days => Length.Days + Length.Clock.Days + 1;

        internal override TripTimes Of(LocalDateTime local, HouseholdZone zone) =>
            new(
                zone.Departure(local),
                Length.Clock == Duration.Zero
                    ? zone.Return(local.PlusDays(Length.Days))
                    : At(Began(zone.Departure(local.PlusDays(Length.Days)), zone) + Length.Clock, zone));
    }

    /// <summary>From local clock times: every instance returns at the same time of day, so many days later.</summary>
    internal sealed record Clock(int DaysLater, LocalTime ReturnAt) : TripLength
    {
        internal override int Days => DaysLater + 1;

        internal override TripTimes Of(LocalDateTime local, HouseholdZone zone) =>
            new(zone.Departure(local), zone.Return(local.Date.PlusDays(DaysLater).At(ReturnAt)));
    }
}
