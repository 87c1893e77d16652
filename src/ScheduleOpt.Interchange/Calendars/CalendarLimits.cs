namespace ScheduleOpt.Interchange.Calendars;

/// <summary>How much a calendar may ask of its reader.</summary>
public static class CalendarLimits
{
    /// <summary>The longest text. [octets]</summary>
    public const int Octets = 1_048_576;

    /// <summary>The most components, calendars and alarms included.</summary>
    public const int Components = 5_000;

    /// <summary>How deep components may nest.</summary>
    public const int Depth = 8;

    /// <summary>The longest span that recurring trips are worked out for. [days]</summary>
    public const int HorizonDays = 400;

    /// <summary>The most instances of recurring trips, those before the span that a count has to step over included.</summary>
    public const int Instances = 10_000;

    /// <summary>The longest trip. [days]</summary>
    public const int TripDays = 366;

    /// <summary>The first year of a start or end.</summary>
    public const int FirstYear = 1970;

    /// <summary>The last year of a start or end.</summary>
    public const int LastYear = 2199;

    /// <summary>The longest distance of one trip, home to home. [km]</summary>
    public const double DistanceKm = 5_000;
}
