using NodaTime;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>How one departure of the horizon comes out.</summary>
/// <param name="Departure">When the car leaves.</param>
/// <param name="RequiredKwh">What it should have then. [kWh]</param>
/// <param name="StoredKwh">What it will have. [kWh]</param>
/// <param name="TripShortfallKwh">Energy that the trip needs and the battery can't give; it becomes away charging. [kWh]</param>
/// <param name="TargetShortfallKwh">By how much the wish is missed. [kWh]</param>
/// <param name="ShortfallKm">The trip shortfall as distance at the departure's temperature. [km]</param>
/// <param name="ReadyAt">When the car has, or would have if it stayed and charged on, what it should have; none: not in the horizon.</param>
public sealed record DepartureForecast(
    Instant Departure,
    double RequiredKwh,
    double StoredKwh,
    double TripShortfallKwh,
    double TargetShortfallKwh,
    double ShortfallKm,
    Instant? ReadyAt)
{
    /// <summary>Whether the energy is there by the finish margin; true where none was asked for.</summary>
    public bool MarginKept { get; init; } = true;
}
