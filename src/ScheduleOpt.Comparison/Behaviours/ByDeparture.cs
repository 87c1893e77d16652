using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>Charging begins as late as possible: one run that reaches the goal at departure.</summary>
/// <remarks>
/// The start is exact: from the goal at departure the charging model is run backward (in a straight line below the knee of the taper,
/// exponentially above it: no search) until the energy that the car has is met. A stay without a departure, the last of the year, takes its
/// end for one. Where the stay is too short charging begins on arrival.
/// </remarks>
public sealed record ByDeparture : UnaidedBehaviour
{
    /// <inheritdoc/>
    public override string Name => "byDeparture";

    /// <inheritdoc/>
    public override string Description => "charges at full power in one run that begins as late as the goal at departure allows";

    internal override Instant StartOf(HomeStay stay, ChargingProblem problem, double storedKwh)
    {
        // Below the minimum the car charges at once up to it, so that much is there when the late run begins.
        var have = Math.Max(storedKwh, problem.MinimumKwh);
        if (have >= stay.GoalKwh)
        {
            return problem.Boundaries[stay.End];
        }

        var after = stay.GoalKwh;
        for (var i = stay.End - 1; i >= stay.First; i--)
        {
            var before = ChargingInverse.Before(problem, i, after);
            if (before <= have)
            {
                var hours = ChargingInverse.HoursTo(problem, i, have, after);
                return problem.Boundaries[i + 1] - Duration.FromHours(hours);
            }

            after = before;
        }

        return problem.Boundaries[stay.First];
    }
}
