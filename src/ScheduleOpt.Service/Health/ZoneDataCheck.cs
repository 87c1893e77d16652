using NodaTime;

namespace ScheduleOpt.Service.Health;

/// <summary>Whether the time zone database is there and knows a zone with clock changes.</summary>
internal sealed class ZoneDataCheck : IReadinessCheck
{
    /// <inheritdoc/>
    public string Name => "zoneData";

    /// <inheritdoc/>
    public string Check() => DateTimeZoneProviders.Tzdb.GetZoneOrNull("America/Chicago") is null
        ? throw new NotReadyException("The time zone database lacks America/Chicago.")
        : DateTimeZoneProviders.Tzdb.VersionId;
}
