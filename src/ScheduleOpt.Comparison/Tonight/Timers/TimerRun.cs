using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tonight.Timers;

/// <summary>One uninterrupted run of a timer in one stay, with the full physics: on at a moment, off when the goal is reached or the car leaves.</summary>
/// <param name="Start">When it begins.</param>
/// <param name="End">When it ends.</param>
/// <param name="StoredKwh">Stored energy when the stay ends. [kWh]</param>
/// <param name="Cost">What it costs: at the price of energy, or by the whole bill where charges are coupled (<see cref="TimerSite"/>). [currency]</param>
/// <param name="AboveLimitKwh">By how much it passes the limit of the schedule at most. [kWh]</param>
internal sealed record TimerRun(Instant Start, Instant End, double StoredKwh, double Cost, double AboveLimitKwh)
{
    /// <summary>What it takes at the wall in each interval of the stay. [kWh]</summary>
    public required double[] WallKwh { get; init; }

    private const double SameA = 1e-9;

    /// <summary>The run; null where hours with less current, or none, lie in its way: a timer knows nothing of them. While the car warms up it charges with what that leaves.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="stay">The stay.</param>
    /// <param name="storedKwh">Stored energy when the stay begins. [kWh]</param>
    /// <param name="start">When it begins.</param>
    /// <param name="goalKwh">The energy at which the car stops. [kWh]</param>
    /// <param name="currentA">The current that is set. [A, per phase]</param>
    public static TimerRun? From(ChargingProblem problem, HomeStay stay, double storedKwh, Instant start, double goalKwh, double currentA)
    {
        var found = Array.BinarySearch(problem.Boundaries, start);
        var (stored, cost, above, end) = (storedKwh, 0.0, 0.0, start);
        var taken = new double[stay.End - stay.First];
        for (var i = found >= 0 ? found : ~found - 1; i < stay.End && stored < goalKwh; i++)
        {
            if (WallKw(problem, i, currentA) is not { } wall)
            {
                return null;
            }

            var from = Instant.Max(start, problem.Boundaries[i]);
            var left = (problem.Boundaries[i + 1] - from).TotalHours;
            var needed = ChargingInverse.HoursTo(problem, Rate(problem, i, wall), stored, goalKwh);
            var charged = Replay.Charge(problem, i, stored, Math.Min(left, needed), wall);
            taken[i - stay.First] = charged.WallKwh;
            cost += charged.WallKwh * problem.Price[i];
            end = needed < left ? from + Duration.FromHours(needed) : wall > 0 ? problem.Boundaries[i + 1] : end;
            stored = needed <= left ? goalKwh : charged.StoredKwh;
            above = Math.Max(above, stored - problem.UpperKwh[i + 1]);
        }

        return new(start, end, stored, cost, above) { WallKwh = taken };
    }

    /// <summary>Power at a current; none where the car can't have it then. [kW]</summary>
    public static double? WallKw(ChargingProblem problem, int interval, double currentA)
    {
        var most = problem.MostA[interval];
        return most >= currentA - SameA && currentA > 0 ? problem.WallKw[interval] * currentA / most
            : problem.WarmUpKwh(interval) > 0 ? problem.WallKw[interval]
            : null;
    }

    /// <summary>Rate into the battery at a power. [kW]</summary>
    public static double Rate(ChargingProblem problem, int interval, double wallKw) =>
        wallKw == problem.WallKw[interval]
            ? problem.NetKw[interval]
            : ChargingModel.NetRateKw(wallKw, problem.TemperatureC[interval], problem.Constants);
}
