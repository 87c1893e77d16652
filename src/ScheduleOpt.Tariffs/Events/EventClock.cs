using NodaTime;
using NodaTime.TimeZones;

namespace ScheduleOpt.Tariffs.Events;

/// <summary>The instant of a local time of an event: of a time that the clock repeats the first, of one that it skips the end of the gap.</summary>
internal static class EventClock
{
    private static readonly ZoneLocalMappingResolver Resolver = Resolvers.CreateMappingResolver(Resolvers.ReturnEarlier, Resolvers.ReturnStartOfIntervalAfter);

    /// <summary>The instant of a local time in a zone.</summary>
    public static Instant At(LocalDateTime local, DateTimeZone zone) => local.InZone(zone, Resolver).ToInstant();
}
