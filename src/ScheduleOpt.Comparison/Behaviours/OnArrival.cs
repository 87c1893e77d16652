using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>Charging begins when the car is plugged in.</summary>
public sealed record OnArrival : UnaidedBehaviour
{
    /// <inheritdoc/>
    public override string Name => "onArrival";

    /// <inheritdoc/>
    public override string Description => "charges at full power from arrival until the goal is reached";

    internal override Instant StartOf(HomeStay stay, ChargingProblem problem, double storedKwh) => problem.Boundaries[stay.First];
}
