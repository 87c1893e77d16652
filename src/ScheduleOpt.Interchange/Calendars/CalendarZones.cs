using NodaTime;
using NodaTime.TimeZones;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>Finds the time zone that a TZID means.</summary>
internal static class CalendarZones
{
    /// <summary>The IANA zone of that name, at the end of that path, or CLDR's for that Windows name; else null.</summary>
    internal static DateTimeZone? Find(string tzid)
    {
        var name = tzid.Trim();
        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(name) is { } zone)
        {
            return zone;
        }

        // Globally unique names begin with a slash and end in the IANA name: RFC 5545, section 3.2.19.
        for (var slash = name.StartsWith('/') ? name.IndexOf('/', 1) : -1; slash >= 0; slash = name.IndexOf('/', slash + 1))
        {
            if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(name[(slash + 1)..]) is { } tail)
            {
                return tail;
            }
        }

        return TzdbDateTimeZoneSource.Default.WindowsMapping.PrimaryMapping.TryGetValue(name, out var id)
            ? DateTimeZoneProviders.Tzdb.GetZoneOrNull(id)
            : null;
    }
}
