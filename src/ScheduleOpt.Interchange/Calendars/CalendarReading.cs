using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>What a calendar says about driving.</summary>
public sealed record CalendarReading
{
    /// <summary>The trips under way or leaving within the span asked for, in order of departure, none overlapping.</summary>
    public required IReadOnlyList<Trip> Trips { get; init; }

    /// <summary>The events that are no trips, each with the reason.</summary>
    public required IReadOnlyList<IgnoredEvent> Ignored { get; init; }

    /// <summary>What was assumed on the way, as sentences.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}
