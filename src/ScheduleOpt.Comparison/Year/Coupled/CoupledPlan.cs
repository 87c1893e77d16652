using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>A schedule under charges that a price per kWh does not say.</summary>
/// <param name="Best">Shares, energies and shortfalls; its cost is that of energy alone.</param>
/// <param name="Most">The most share of each interval under the levels of power kept; none: the whole of it.</param>
/// <param name="Cost">Cost with all charges, by their model. [currency]</param>
internal sealed record CoupledPlan(LeastCost Best, double[]? Most, double Cost)
{
    /// <summary>The problem that was solved: its prices changed, its powers and rates those of the shares allowed.</summary>
    public required ChargingProblem Solved { get; init; }
}
