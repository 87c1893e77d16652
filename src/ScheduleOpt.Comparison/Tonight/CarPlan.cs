using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>The answer for one car. Everything is after the replay with the full physics unless it says otherwise.</summary>
public sealed record CarPlan
{
    /// <summary>Its name.</summary>
    public string Name => Car.Name;

    /// <summary>Its question.</summary>
    public required ChargingCase Case { get; init; }

    /// <summary>The car as it was solved: the most and the least current in each interval, and how it may run.</summary>
    public required HouseholdCar Car { get; init; }

    /// <summary>The problem that was solved: intervals, prices, temperatures and limits.</summary>
    public ChargingProblem Problem => Car.Problem;

    /// <summary>What was planned before the taper.</summary>
    public required CarSchedule Planned { get; init; }

    /// <summary>Charging windows at home, in order, to the end of the horizon.</summary>
    public required IReadOnlyList<ChargingWindow> Windows { get; init; }

    /// <summary>The windows as runs of one current.</summary>
    public required IReadOnlyList<CurrentStep> Steps { get; init; }

    /// <summary>Full current of the supply; limits by hours and other cars may leave less. [A, per phase]</summary>
    public required double FullCurrentA { get; init; }

    /// <summary>Power at the full current, away from the taper. [kW, wall]</summary>
    public double FullPowerKw => Car.VoltsAcrossPhases * FullCurrentA / 1000;

    /// <summary>Current of each interval while the car charges at home; 0 where it does not. [A, per phase]</summary>
    public required double[] CurrentA { get; init; }

    /// <summary>Shares of the intervals in which the car charges.</summary>
    public required double[] Shares { get; init; }

    /// <summary>What happens with the full physics.</summary>
    public required ReplayResult Replay { get; init; }

    /// <summary>How each departure comes out, in order.</summary>
    public required IReadOnlyList<DepartureForecast> Departures { get; init; }

    /// <summary>Hours in which charging waits for warmer ones, to the second departure ahead.</summary>
    public required IReadOnlyList<ColdHours> ColdHours { get; init; }

    /// <summary>Ready, or short.</summary>
    public NightOutcome Outcome =>
        Departures.Any(d => d.TripShortfallKwh > 0 || d.TargetShortfallKwh > 0) ? NightOutcome.Short : NightOutcome.Ready;
}
