using NodaTime;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Moves the start of a stay's last window so that the full physics reach what the LP planned.</summary>
/// <remarks>The LP knows no taper, and windows begin and end on a whole second: stay by stay, in order, the last window begins as much
/// earlier (or later) as the replay is short (or over). What a window can't make up is reported as it is.</remarks>
internal static class TaperAllowance
{
    // The pace changes along the taper, so that the second look corrects the first; three are enough for a second's energy.
    private const int MostLooks = 4;

    /// <summary>The windows after the correction, their replay, and the largest move to an earlier start.</summary>
    public static (IReadOnlyList<ChargingWindow> Windows, ReplayResult Replay, Duration Earlier) Apply(
        ChargingProblem problem, LeastCost least, IReadOnlyList<ChargingWindow> windows)
    {
        var moved = windows.ToList();
        var replay = Run(problem, least, moved);
        var earlier = Duration.Zero;
        var stayStart = 0;
        for (var k = 0; k <= problem.Departures.Length; k++)
        {
            var stayEnd = k < problem.Departures.Length ? problem.Departures[k].Boundary : problem.Count;
            var last = moved.FindLastIndex(w => w.End <= problem.Boundaries[stayEnd] && w.Start >= problem.Boundaries[stayStart]);
            if (last >= 0)
            {
                var planned = moved[last].Start;
                replay = Settle(problem, least, moved, last, stayStart, stayEnd, replay);
                earlier = Duration.Max(earlier, planned - moved[last].Start);
            }

            stayStart = k < problem.Departures.Length ? problem.Departures[k].ReturnBoundary : stayEnd;
        }

        moved.RemoveAll(w => w.End <= w.Start);
        return (moved, replay, earlier);
    }

    private static ReplayResult Settle(
        ChargingProblem problem, LeastCost least, List<ChargingWindow> windows, int last, int stayStart, int stayEnd, ReplayResult replay)
    {
        var i = Math.Min(Array.FindIndex(problem.Boundaries, b => b >= windows[last].End) - 1, problem.Count - 1);
        var secondsPerKwh = 3600 / Math.Max(problem.NetKw[Math.Max(i, stayStart)], 0.01);
        var notBefore = last > 0 ? Instant.Max(problem.Boundaries[stayStart], windows[last - 1].End) : problem.Boundaries[stayStart];
        for (var look = 0; look < MostLooks; look++)
        {
            var missing = least.StoredKwh[stayEnd] - replay.StoredKwh[stayEnd];
            var seconds = Math.Round(missing * secondsPerKwh);
            if (seconds == 0)
            {
                break;
            }

            var before = windows[last].Start;
            var start = Instant.Min(windows[last].End, Instant.Max(notBefore, before - Duration.FromSeconds(seconds)));
            windows[last] = windows[last] with { Start = start };
            var next = Run(problem, least, windows);
            var gained = next.StoredKwh[stayEnd] - replay.StoredKwh[stayEnd];
            if (start == before || Math.Abs(gained) < 1e-9)
            {
                return next;
            }

            secondsPerKwh = (before - start).TotalSeconds / gained;
            replay = next;
        }

        return replay;
    }

    private static ReplayResult Run(ChargingProblem problem, LeastCost least, IReadOnlyList<ChargingWindow> windows)
    {
        var shares = WindowPlanner.Shares(problem, windows);
        for (var i = 0; i < shares.Length; i++)
        {
            if (problem.Place[i] == Place.Stop)
            {
                shares[i] = least.Shares[i];
            }
        }

        return Replay.Run(problem, shares, least.TripShortfallKwh);
    }
}
