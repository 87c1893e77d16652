using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>The answer for the coming nights.</summary>
/// <remarks>Money is worked out in binary numbers here and rounded once where it is written. Everything is after the replay with the full
/// physics unless it says otherwise.</remarks>
public sealed record NightPlan
{
    /// <summary>Ready, or short.</summary>
    public required NightOutcome Outcome { get; init; }

    /// <summary>Charging windows at home, in order, to the end of the horizon.</summary>
    public required IReadOnlyList<ChargingWindow> Windows { get; init; }

    /// <summary>The windows as runs of one current: it changes where a limit by hours begins or ends.</summary>
    public required IReadOnlyList<CurrentStep> Steps { get; init; }

    /// <summary>Full current of the supply; limits by hours may leave less. [A, per phase]</summary>
    public required double FullCurrentA { get; init; }

    /// <summary>Power at the full current, away from the taper. [kW, wall]</summary>
    public required double FullPowerKw { get; init; }

    /// <summary>The problem that was solved: intervals, prices, temperatures and limits.</summary>
    public required ChargingProblem Problem { get; init; }

    /// <summary>The least-cost solution that the windows were made from, before the taper.</summary>
    public required LeastCost Least { get; init; }

    /// <summary>The least-cost solution that bounds the cost.</summary>
    public required LeastCost Bound { get; init; }

    /// <summary>Shares of the intervals in which the car charges.</summary>
    public required double[] Shares { get; init; }

    /// <summary>What happens with the full physics.</summary>
    public required ReplayResult Replay { get; init; }

    /// <summary>What the schedule costs over the horizon at the rate plan's prices. [currency]</summary>
    public required double Cost { get; init; }

    /// <summary>What charging on arrival costs over the same horizon. [currency]</summary>
    public required double CostOnArrival { get; init; }

    /// <summary>Energy stored at the horizon's end by charging on arrival beyond what the schedule stores. [kWh]</summary>
    public required double ExtraEndKwhOnArrival { get; init; }

    /// <summary>What no schedule that ends with as much stored can go below. [currency]</summary>
    public double BoundCost =>
        Bound.Objective + Problem.WarmUpCost() + (Problem.EndValuePerKwh * Math.Min(Problem.OrdinaryKwh, Replay.StoredKwh[^1]));

    /// <summary>Cost above the bound. [currency] Zero or more.</summary>
    public double Gap => Math.Max(0, Cost - BoundCost);

    /// <summary>Whether the gap is within 0.1 % of the bound or 0.1 cent.</summary>
    public bool GapIsFine => Gap <= Math.Max(0.001 * Math.Abs(BoundCost), WindowPlanner.GiveUpAtLeast);

    /// <summary>How each departure comes out, in order.</summary>
    public required IReadOnlyList<DepartureForecast> Departures { get; init; }

    /// <summary>Hours in which charging waits for warmer ones, to the second departure ahead.</summary>
    public required IReadOnlyList<ColdHours> ColdHours { get; init; }

    /// <summary>Whether the solver ran into its limit and a simpler method answered.</summary>
    public required bool LimitReached { get; init; }

    /// <summary>What the owner must know about this answer.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>What the schedule check found; empty as it should be. If not, the plan charges on arrival instead.</summary>
    public required IReadOnlyList<string> CheckFindings { get; init; }
}
