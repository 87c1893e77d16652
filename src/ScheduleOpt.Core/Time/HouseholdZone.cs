using NodaTime;
using NodaTime.TimeZones;

namespace ScheduleOpt.Core.Time;

/// <summary>The one place where a household's local times become instants.</summary>
/// <remarks>
/// A departure in the gap of a clock change is due at the instant of the gap and is shown shifted forward by its length; an ambiguous
/// departure is the first occurrence, an ambiguous return the second: the car is ready early and never thought to be home too soon.
/// </remarks>
public sealed class HouseholdZone(DateTimeZone zone)
{
    private static readonly ZoneLocalMappingResolver Returning = Resolvers.CreateMappingResolver(
        Resolvers.ReturnLater,
        Resolvers.ReturnForwardShifted);

    /// <summary>The IANA time zone.</summary>
    public DateTimeZone Zone { get; } = zone;

    /// <summary>The instant at which a local departure is due.</summary>
    public LocalMoment Departure(LocalDateTime local)
    {
        var mapping = Zone.MapLocal(local);
        return mapping.Count switch
        {
            0 => new(mapping.LateInterval.Start, Shifted(local, mapping), LocalReading.Skipped),
            1 => new(mapping.Single().ToInstant(), local, LocalReading.Unique),
            _ => new(mapping.First().ToInstant(), local, LocalReading.FirstOfTwo),
        };
    }

    /// <summary>The instant of a local return: shifted forward out of a gap, the second of two occurrences.</summary>
    public LocalMoment Return(LocalDateTime local)
    {
        var mapping = Zone.MapLocal(local);
        var resolved = Returning(mapping);
        return new(resolved.ToInstant(), resolved.LocalDateTime, mapping.Count switch
        {
            0 => LocalReading.Skipped,
            1 => LocalReading.Unique,
            _ => LocalReading.SecondOfTwo,
        });
    }

    /// <summary>Midnight of a local date, or the first instant of it where midnight is skipped.</summary>
    public Instant StartOf(LocalDate date) => Zone.AtStartOfDay(date).ToInstant();

    private static LocalDateTime Shifted(LocalDateTime local, ZoneLocalMapping mapping) =>
        Resolvers.ReturnForwardShifted(local, mapping.Zone, mapping.EarlyInterval, mapping.LateInterval).LocalDateTime;
}
