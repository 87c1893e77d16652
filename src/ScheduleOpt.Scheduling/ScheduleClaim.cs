using NodaTime;

namespace ScheduleOpt.Scheduling;

/// <summary>What a schedule says of itself, to be checked.</summary>
public sealed record ScheduleClaim
{
    /// <summary>Volts that an ampere of each phase meets at home: the voltage on one phase, 3 * 230 on three. [V]</summary>
    public required double VoltsAcrossPhases { get; init; }

    /// <summary>Current while charging in each interval at home; without meaning where the car does not charge. [A, per phase]</summary>
    public required double[] CurrentA { get; init; }

    /// <summary>Current that the circuit may carry for hours. [A]</summary>
    public required double ContinuousRatingA { get; init; }

    /// <summary>The least current at which the car charges. [A]</summary>
    public required double MinimumCurrentA { get; init; }

    /// <summary>Whether every current must be a whole number of amperes.</summary>
    public bool WholeAmperes { get; init; }

    /// <summary>Hours in which the car must not charge at home.</summary>
    public IReadOnlyList<Interval> NoCharging { get; init; } = [];

    /// <summary>Hours in which its current at home is limited further.</summary>
    public IReadOnlyList<CurrentLimit> CurrentLimits { get; init; } = [];

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
