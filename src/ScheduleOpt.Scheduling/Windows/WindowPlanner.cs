using NodaTime;

namespace ScheduleOpt.Scheduling.Windows;

/// <summary>Step 3: makes a least-cost solution runnable, with as few windows as all but the same cost allows.</summary>
public static class WindowPlanner
{
    /// <summary>Cost that step 3 may give up for fewer windows: a tenth of a cent. [currency]</summary>
    public const double GiveUpAtLeast = 0.001;

    /// <summary>Cost that step 3 may give up for fewer windows, as a share of the best cost; before the second departure of what it costs until then.</summary>
    public const double GiveUpShare = 0.0001;

    // Later stays will be planned anew before they matter.
    private const int StaysSearched = 2;

    /// <summary>The windows of every stay at home, in order.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="least">Its least-cost solution.</param>
    public static IReadOnlyList<ChargingWindow> Plan(ChargingProblem problem, LeastCost least)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(least);
        Stay[] stays = [.. Stays(problem)];

        // The next stays have a share of their own cost, not of the whole horizon's: looking further ahead would buy tonight more minutes.
        var whole = Budget(least.Cost);
        var budget = Math.Min(whole, Budget(stays.Take(StaysSearched).Sum(s => CostOf(s, least.Shares))));
        var later = whole - budget;
        var windows = new List<ChargingWindow>();
        var staysSeen = 0;
        foreach (var stay in stays)
        {
            var end = stay.First + stay.Count;
            var start = least.StoredKwh[stay.First];
            var gain = least.StoredKwh[end] - start;
            var placed = Placement.Edges(stay, least.Shares);
            var chosen = WindowSearch.Evaluate(stay, start, placed);
            if (chosen is { Count: > 0 })
            {
                // Beyond the second departure: one window or the windows it has.
                var mostWindows = staysSeen < StaysSearched ? chosen.Count : 1;
                var better = Fewer(stay, start, gain, chosen, chosen.Cost + budget, mostWindows);
                budget -= Math.Max(0, better.Cost - chosen.Cost);
                chosen = better;
            }

            AddWindows(problem, stay, chosen?.Edges ?? placed, windows);
            staysSeen++;
            budget += staysSeen == StaysSearched ? later : 0;
        }

        return windows;
    }

    /// <summary>The share of each interval that windows cover.</summary>
    public static double[] Shares(ChargingProblem problem, IReadOnlyList<ChargingWindow> windows)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(windows);
        var shares = new double[problem.Count];
        foreach (var window in windows)
        {
            var i = Array.BinarySearch(problem.Boundaries, window.Start);
            for (i = i >= 0 ? i : ~i - 1; i < problem.Count && problem.Boundaries[i] < window.End; i++)
            {
                var on = Instant.Min(problem.Boundaries[i + 1], window.End) - Instant.Max(problem.Boundaries[i], window.Start);
                shares[i] = Math.Min(1, shares[i] + (on.TotalHours / problem.Hours[i]));
            }
        }

        return shares;
    }

    /// <summary>The stays at home in order.</summary>
    internal static IEnumerable<Stay> Stays(ChargingProblem problem)
    {
        var start = 0;
        foreach (var departure in problem.Departures)
        {
            if (departure.Boundary > start)
            {
                yield return new Stay(problem, start, departure.Boundary);
            }

            start = departure.ReturnBoundary;
        }

        if (start < problem.Count)
        {
            yield return new Stay(problem, start, problem.Count);
        }
    }

    private static double Budget(double cost) => Math.Max(GiveUpAtLeast, GiveUpShare * Math.Abs(cost));

    private static double CostOf(Stay stay, double[] shares)
    {
        var cost = 0.0;
        for (var j = 0; j < stay.Count; j++)
        {
            cost += (stay.Cost(j + 1) - stay.Cost(j)) * shares[stay.First + j];
        }

        return cost;
    }

    private static StayWindows Fewer(
        Stay stay, double startKwh, double gainKwh, StayWindows placed, double atMostCost, int mostWindows)
    {
        for (var windows = 1; windows <= mostWindows; windows++)
        {
            if (WindowSearch.Best(stay, startKwh, gainKwh, atMostCost, windows) is { } found && found.IsBetterThan(placed))
            {
                return found;
            }
        }

        return placed;
    }

    private static void AddWindows(ChargingProblem problem, Stay stay, double[] edges, List<ChargingWindow> windows)
    {
        for (var w = 0; w < edges.Length; w += 2)
        {
            var window = new ChargingWindow(At(problem, stay, edges[w]), At(problem, stay, edges[w + 1]));
            if (window.End > window.Start)
            {
                windows.Add(window);
            }
        }
    }

    private static Instant At(ChargingProblem problem, Stay stay, double position)
    {
        var whole = Math.Min((int)position, stay.Count - 1);
        var i = stay.First + whole;
        var exact = problem.Boundaries[i] + ((problem.Boundaries[i + 1] - problem.Boundaries[i]) * (position - whole));

        // A hub switches on the second.
        return Instant.FromUnixTimeSeconds((long)Math.Round((exact - NodaConstants.UnixEpoch).TotalSeconds));
    }
}
