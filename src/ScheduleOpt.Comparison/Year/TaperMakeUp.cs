using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year;

/// <summary>Replays a least-cost year and makes up, once, for what the taper takes near full.</summary>
/// <remarks>The taper is not in the LP. Where the replay misses a wish that the LP had met, charging before that departure is lengthened
/// backward by the missing time; what is missing after that stays a shortfall.</remarks>
internal static class TaperMakeUp
{
    /// <summary>Runs a schedule with it.</summary>
    public static ReplayResult Run(ChargingProblem problem, LeastCost best) => Lengthened(problem, best, null).Replay;

    /// <summary>The shares with it, and what happens then.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="best">Its least-cost schedule.</param>
    /// <param name="most">The most share of each interval; none: the whole of it.</param>
    public static (double[] Shares, ReplayResult Replay) Lengthened(ChargingProblem problem, LeastCost best, double[]? most)
    {
        var replay = Replay.Run(problem, best.Shares);
        double[]? shares = null;
        for (var k = 0; k < problem.Departures.Length; k++)
        {
            var missing = replay.TargetShortfallKwh[k] - best.TargetShortfallKwh[k];
            if (missing > Readiness.ToleranceKwh)
            {
                shares ??= [.. best.Shares];
                Lengthen(problem, shares, most, problem.Departures[k].Boundary, replay.StoredKwh[problem.Departures[k].Boundary], missing);
            }
        }

        return shares is null ? (best.Shares, replay) : (shares, Replay.Run(problem, shares));
    }

    private static void Lengthen(ChargingProblem problem, double[] shares, double[]? most, int boundary, double stored, double missing)
    {
        var last = boundary - 1;
        if (last < 0 || problem.NetKw[last] <= 0)
        {
            return;
        }

        var hours = ChargingInverse.HoursTo(problem, last, stored, stored + missing);
        for (var i = last; i >= 0 && hours > 0 && problem.Place[i] == Place.Home; i--)
        {
            if (problem.NetKw[i] > 0)
            {
                var added = Math.Min(hours, Math.Max(0, (most?[i] ?? 1) - shares[i]) * problem.Hours[i]);
                shares[i] += added / problem.Hours[i];
                hours -= added;
            }
        }
    }
}
