using NodaTime;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads a <c>timeZone</c>.</summary>
internal static class ZoneReader
{
    private const string Rule = "Must be a zone of the IANA time zone database, such as America/Chicago.";

    /// <summary>Reads a zone.</summary>
    public static HouseholdZone? Read(JsonField? maybe)
    {
        if (maybe is not { } field || field.Text(64) is not { } id)
        {
            return null;
        }

        // The provider also makes zones of fixed offset from ids such as UTC+01: they have no clock changes and are none of the database's.
        if (!DateTimeZoneProviders.Tzdb.Ids.Contains(id))
        {
            field.Fault(Rule);
            return null;
        }

        return new HouseholdZone(DateTimeZoneProviders.Tzdb[id]);
    }
}
