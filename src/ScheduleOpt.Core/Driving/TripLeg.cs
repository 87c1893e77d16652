using NodaTime;

namespace ScheduleOpt.Core.Driving;

/// <summary>A part of a trip that is driven without a stop.</summary>
/// <param name="Distance">How far. [km]</param>
/// <param name="Start">When it may begin.</param>
/// <param name="End">When it is over; later than the start.</param>
/// <param name="TemperatureAt">The instant whose outdoor temperature its consumption is worked out with.</param>
public sealed record TripLeg(Distance Distance, Instant Start, Instant End, Instant TemperatureAt)
{
    /// <summary>The stop after the leg; none for the last leg.</summary>
    public TripStop? Stop { get; init; }
}
