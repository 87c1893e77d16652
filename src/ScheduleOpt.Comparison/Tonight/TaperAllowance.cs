using NodaTime;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Moves the starts of a stay's windows so that the full physics reach what the LP planned.</summary>
/// <remarks>The LP knows no taper, and windows begin and end on a whole second: stay by stay, in order, the last window begins as much
/// earlier (or later) as the replay is short (or over), and where it can't, the one before it. First by the time that a finish margin begins, then
/// by the end of the stay. No window is moved into hours in which nothing can be stored. What can't be made up is reported as it is.</remarks>
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
        var stayStart = 0;
        for (var k = 0; k <= problem.Departures.Length; k++)
        {
            var stayEnd = k < problem.Departures.Length ? problem.Departures[k].Boundary : problem.Count;
            if (k < problem.Departures.Length && problem.Departures[k] is { MarginKept: true } departure && departure.DueBoundary < stayEnd)
            {
                replay = Settle(problem, least, moved, stayStart, departure.DueBoundary, departure.RequiredKwh, mayShorten: false, replay);
            }

            var isDue = k < problem.Departures.Length && problem.Departures[k].DueBoundary < stayEnd;
            replay = Settle(problem, least, moved, stayStart, stayEnd, least.StoredKwh[stayEnd], mayShorten: !isDue, replay);
            stayStart = k < problem.Departures.Length ? problem.Departures[k].ReturnBoundary : stayEnd;
        }

        var earlier = windows.Zip(moved, (planned, now) => planned.Start - now.Start).Append(Duration.Zero).Max();
        moved.RemoveAll(w => w.End <= w.Start);
        return (moved, replay, earlier);
    }

    /// <summary>Brings the energy at a boundary to what was planned, from the last window that begins before it backward.</summary>
    private static ReplayResult Settle(
        ChargingProblem problem,
        LeastCost least,
        List<ChargingWindow> windows,
        int stayStart,
        int until,
        double plannedKwh,
        bool mayShorten,
        ReplayResult replay)
    {
        var (from, to) = (problem.Boundaries[stayStart], problem.Boundaries[until]);
        for (var w = windows.Count - 1; w >= 0; w--)
        {
            if (windows[w].Start < from || windows[w].Start >= to)
            {
                continue;
            }

            replay = Move(problem, least, windows, w, stayStart, until, plannedKwh, mayShorten, replay);
            mayShorten = false;
        }

        return replay;
    }

    private static ReplayResult Move(
        ChargingProblem problem,
        LeastCost least,
        List<ChargingWindow> windows,
        int w,
        int stayStart,
        int until,
        double plannedKwh,
        bool mayShorten,
        ReplayResult replay)
    {
        var end = Instant.Min(windows[w].End, problem.Boundaries[until]);
        var i = Math.Max(IndexBefore(problem, end), stayStart);
        var secondsPerKwh = 3600 / Math.Max(problem.NetKw[i], 0.01);
        var notBefore = NotBefore(problem, windows, w, stayStart);
        for (var look = 0; look < MostLooks; look++)
        {
            var missing = plannedKwh - replay.StoredKwh[until];
            var seconds = Math.Round(missing * secondsPerKwh);
            if (seconds == 0 || (seconds < 0 && !mayShorten))
            {
                break;
            }

            var before = windows[w].Start;
            var start = Instant.Min(windows[w].End, Instant.Max(notBefore, before - Duration.FromSeconds(seconds)));
            windows[w] = windows[w] with { Start = start };
            var next = Run(problem, least, windows);
            var gained = next.StoredKwh[until] - replay.StoredKwh[until];
            replay = next;
            if (start == before || Math.Abs(gained) < 1e-9)
            {
                break;
            }

            secondsPerKwh = (before - start).TotalSeconds / gained;
        }

        return replay;
    }

    /// <summary>How early a window may begin: not before its stay, the window before it, or hours in which nothing can be stored.</summary>
    private static Instant NotBefore(ChargingProblem problem, List<ChargingWindow> windows, int w, int stayStart)
    {
        var i = IndexBefore(problem, windows[w].Start);
        while (i >= stayStart && problem.NetKw[i] > 0)
        {
            i--;
        }

        // A window that begins inside an interval may move to its start.
        var open = problem.Boundaries[Math.Max(i + 1, stayStart)];
        open = Instant.Min(open, windows[w].Start);
        return w > 0 ? Instant.Max(open, windows[w - 1].End) : open;
    }

    /// <summary>Index of the interval that lies before an instant, whole or in part.</summary>
    private static int IndexBefore(ChargingProblem problem, Instant instant)
    {
        var found = Array.BinarySearch(problem.Boundaries, instant);
        return (found >= 0 ? found : ~found) - 1;
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
