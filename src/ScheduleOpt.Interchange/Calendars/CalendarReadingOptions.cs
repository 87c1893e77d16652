using ScheduleOpt.Core;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>How the events of a calendar are taken.</summary>
public sealed record CalendarReadingOptions
{
    /// <summary>Whether every event is a trip. Default: only those marked <c>DRIVING</c> and those that carry a distance.</summary>
    public bool AllEventsAreTrips { get; init; }

    /// <summary>The distance of a trip that carries none, home to home; none: such a trip is a fault. [km]</summary>
    public Distance? DefaultDistance { get; init; }

    /// <summary>The JSON pointer that faults begin with. Default <c>#/calendar/ics</c>.</summary>
    public string Pointer { get; init; } = "#/calendar/ics";
}
