namespace ScheduleOpt.Interchange.Calendars;

/// <summary>The instances of a recurring trip.</summary>
public sealed record RecurringTimes
{
    /// <summary>Departures and returns in order, those under way or leaving within the span asked for.</summary>
    public required IReadOnlyList<TripTimes> Instances { get; init; }

    /// <summary>What was assumed on the way, as sentences.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}
