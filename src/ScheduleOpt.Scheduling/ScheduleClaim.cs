using NodaTime;

namespace ScheduleOpt.Scheduling;

/// <summary>What a schedule says of itself, to be checked.</summary>
public sealed record ScheduleClaim
{
    /// <summary>Volts that an ampere of each phase meets at home: the voltage on one phase, 3 * 230 on three. [V]</summary>
    public required double VoltsAcrossPhases { get; init; }

    /// <summary>Current while charging at home. [A, per phase]</summary>
    public required double CurrentA { get; init; }

    /// <summary>Current that the circuit may carry for hours. [A]</summary>
    public required double ContinuousRatingA { get; init; }

    /// <summary>Time charged in each interval. [h]</summary>
    public required double[] OnHours { get; init; }

    /// <summary>Stored energy claimed at each boundary. [kWh]</summary>
    public required double[] StoredKwh { get; init; }

    /// <summary>Trip shortfall claimed for each departure. [kWh]</summary>
    public required double[] TripShortfallKwh { get; init; }

    /// <summary>Target shortfall claimed for each departure. [kWh]</summary>
    public required double[] TargetShortfallKwh { get; init; }

    /// <summary>Cost claimed. [currency]</summary>
    public required double Cost { get; init; }

    /// <summary>Whether the claim was made with the taper close to full; the solver's own path is not.</summary>
    public required bool WithTaper { get; init; }

    /// <summary>By how much windows begin earlier because of the taper: the limits are granted as much earlier.</summary>
    public Duration BegunEarlier { get; init; } = Duration.Zero;
}
