using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>A time at home without a break, from arrival to departure or to the end of the problem.</summary>
/// <param name="First">The first interval, and the boundary of arrival.</param>
/// <param name="End">The boundary at which the stay ends; intervals before it belong to the stay.</param>
/// <param name="GoalKwh">The energy at which charging stops. [kWh]</param>
internal readonly record struct HomeStay(int First, int End, double GoalKwh)
{
    /// <summary>The stays of a problem in order.</summary>
    /// <remarks>The goal is the larger of the ordinary limit and what the departure at the stay's end requires, never above usable
    /// energy.</remarks>
    public static IEnumerable<HomeStay> Of(ChargingProblem problem)
    {
        var next = 0;
        for (var i = 0; i < problem.Count; i++)
        {
            if (problem.Place[i] != Place.Home)
            {
                continue;
            }

            while (next < problem.Departures.Length && problem.Departures[next].Boundary <= i)
            {
                next++;
            }

            var departs = next < problem.Departures.Length;
            var end = departs ? problem.Departures[next].Boundary : problem.Count;
            var required = departs ? problem.Departures[next].RequiredKwh : 0;
            yield return new HomeStay(i, end, Math.Min(problem.UsableKwh, Math.Max(problem.OrdinaryKwh, required)));
            i = end - 1;
        }
    }
}
