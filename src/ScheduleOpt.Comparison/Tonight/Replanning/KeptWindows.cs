using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight.Replanning;

/// <summary>Windows of an earlier plan in one stay, brought to another energy at their edges.</summary>
internal static class KeptWindows
{
    private const double SameKwh = 1e-6;

    // Each step empties or fills a part of an interval at one edge.
    private const int MostSteps = 10_000;

    /// <summary>What of the windows lies in a stay, in hours in which something can be stored.</summary>
    public static List<ChargingWindow> Within(ChargingProblem problem, HomeStay stay, IReadOnlyList<ChargingWindow> windows)
    {
        var within = new List<ChargingWindow>();
        foreach (var window in windows)
        {
            for (var i = stay.First; i < stay.End; i++)
            {
                var (start, end) = (Instant.Max(window.Start, problem.Boundaries[i]), Instant.Min(window.End, problem.Boundaries[i + 1]));
                if (end <= start || problem.NetKw[i] <= 0)
                {
                    continue;
                }

                if (within.Count > 0 && within[^1].End >= start)
                {
                    within[^1] = within[^1] with { End = Instant.Max(within[^1].End, end) };
                }
                else
                {
                    within.Add(new ChargingWindow(start, end));
                }
            }
        }

        return within;
    }

    /// <summary>Lengthens or shortens windows until they store so much, without the taper; false where they can't.</summary>
    public static bool Adjust(ChargingProblem problem, HomeStay stay, List<ChargingWindow> windows, double gainKwh)
    {
        var missing = gainKwh - windows.Sum(w => Gain(problem, w));
        for (var step = 0; step < MostSteps && Math.Abs(missing) > SameKwh; step++)
        {
            var moved = missing > 0 ? Lengthen(problem, stay, windows, missing) : -Shorten(problem, windows, -missing);
            if (moved == 0)
            {
                return false;
            }

            missing -= moved;
        }

        for (var w = 0; w < windows.Count; w++)
        {
            windows[w] = new(OnSecond(windows[w].Start), OnSecond(windows[w].End));
        }

        windows.RemoveAll(w => w.End <= w.Start);
        return Math.Abs(missing) <= SameKwh;
    }

    /// <summary>Adds energy at the edge at which it costs least, within one interval; gives what was added. [kWh]</summary>
    private static double Lengthen(ChargingProblem problem, HomeStay stay, List<ChargingWindow> windows, double kwh)
    {
        var (best, atStart, interval, cost) = (-1, false, -1, double.PositiveInfinity);
        for (var w = 0; w < windows.Count; w++)
        {
            var before = IndexBefore(problem, windows[w].Start);
            if (before >= stay.First && problem.NetKw[before] > 0 && PerStored(problem, before) < cost)
            {
                (best, atStart, interval, cost) = (w, true, before, PerStored(problem, before));
            }

            var after = IndexFrom(problem, windows[w].End);
            if (after < stay.End && problem.NetKw[after] > 0 && PerStored(problem, after) < cost)
            {
                (best, atStart, interval, cost) = (w, false, after, PerStored(problem, after));
            }
        }

        if (best < 0)
        {
            return 0;
        }

        var window = windows[best];
        var wanted = Duration.FromHours(kwh / problem.NetKw[interval]);
        Duration added;
        if (atStart)
        {
            var open = best > 0 ? Instant.Max(problem.Boundaries[interval], windows[best - 1].End) : problem.Boundaries[interval];
            added = Duration.Min(wanted, window.Start - open);
            windows[best] = window with { Start = window.Start - added };
            Join(windows, best - 1);
        }
        else
        {
            var open = best + 1 < windows.Count ? Instant.Min(problem.Boundaries[interval + 1], windows[best + 1].Start) : problem.Boundaries[interval + 1];
            added = Duration.Min(wanted, open - window.End);
            windows[best] = window with { End = window.End + added };
            Join(windows, best);
        }

        return added == wanted ? kwh : added.TotalHours * problem.NetKw[interval];
    }

    /// <summary>Takes energy off at the edge at which it saves most, within one interval; gives what was taken off. [kWh]</summary>
    private static double Shorten(ChargingProblem problem, List<ChargingWindow> windows, double kwh)
    {
        var (best, atStart, interval, cost) = (-1, false, -1, double.NegativeInfinity);
        for (var w = 0; w < windows.Count; w++)
        {
            // A window under way is not interrupted.
            var first = IndexFrom(problem, windows[w].Start);
            if (windows[w].Start > problem.Boundaries[0] && PerStored(problem, first) > cost)
            {
                (best, atStart, interval, cost) = (w, true, first, PerStored(problem, first));
            }

            var last = IndexBefore(problem, windows[w].End);
            if (PerStored(problem, last) > cost)
            {
                (best, atStart, interval, cost) = (w, false, last, PerStored(problem, last));
            }
        }

        if (best < 0)
        {
            return 0;
        }

        var window = windows[best];
        var (from, to) = (Instant.Max(window.Start, problem.Boundaries[interval]), Instant.Min(window.End, problem.Boundaries[interval + 1]));
        var wanted = Duration.FromHours(kwh / problem.NetKw[interval]);
        var taken = Duration.Min(wanted, to - from);
        windows[best] = atStart ? window with { Start = window.Start + taken } : window with { End = window.End - taken };
        if (windows[best].End <= windows[best].Start)
        {
            windows.RemoveAt(best);
        }

        return taken == wanted ? kwh : taken.TotalHours * problem.NetKw[interval];
    }

    private static void Join(List<ChargingWindow> windows, int first)
    {
        if (first >= 0 && first + 1 < windows.Count && windows[first].End >= windows[first + 1].Start)
        {
            windows[first] = windows[first] with { End = windows[first + 1].End };
            windows.RemoveAt(first + 1);
        }
    }

    private static double Gain(ChargingProblem problem, ChargingWindow window)
    {
        var sum = 0.0;
        for (var i = IndexFrom(problem, window.Start); i < problem.Count && problem.Boundaries[i] < window.End; i++)
        {
            sum += problem.NetKw[i] * (Instant.Min(problem.Boundaries[i + 1], window.End) - Instant.Max(problem.Boundaries[i], window.Start)).TotalHours;
        }

        return sum;
    }

    private static double PerStored(ChargingProblem problem, int i) => problem.Price[i] * problem.WallKw[i] / problem.NetKw[i];

    private static int IndexBefore(ChargingProblem problem, Instant instant)
    {
        var found = Array.BinarySearch(problem.Boundaries, instant);
        return (found >= 0 ? found : ~found) - 1;
    }

    private static int IndexFrom(ChargingProblem problem, Instant instant)
    {
        var found = Array.BinarySearch(problem.Boundaries, instant);
        return found >= 0 ? found : ~found - 1;
    }

    private static Instant OnSecond(Instant instant) =>
        Instant.FromUnixTimeSeconds((long)Math.Round((instant - NodaConstants.UnixEpoch).TotalSeconds));
}
