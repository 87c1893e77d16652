using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>A behaviour without help: one rule for the moment at which charging begins in each stay at home.</summary>
/// <remarks>
/// Shared by all of them. Once begun, charging goes on at full power until the stay's goal or the departure. The goal is the larger of the
/// ordinary limit and what the next departure requires. A car below its minimum state of charge charges at once up to the minimum,
/// whatever the behaviour. The contactor stays open where full power would store nothing (deep cold). At a stop that offers charging the
/// car charges from its arrival up to what the rest of the trip needs at the mean, plus the minimum.
/// </remarks>
public abstract record UnaidedBehaviour : Behaviour
{
    private protected UnaidedBehaviour()
    {
    }

    /// <summary>When charging begins in a stay; the end of the stay or later: not at all.</summary>
    /// <param name="stay">The stay and its goal.</param>
    /// <param name="problem">Supplies, temperatures and the car.</param>
    /// <param name="storedKwh">Energy in the battery when the stay begins. [kWh]</param>
    internal abstract Instant StartOf(HomeStay stay, ChargingProblem problem, double storedKwh);
}
