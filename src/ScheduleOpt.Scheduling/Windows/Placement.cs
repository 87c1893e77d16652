namespace ScheduleOpt.Scheduling.Windows;

/// <summary>Turns the least-cost shares of a stay into windows: the same cost, charging that can be run.</summary>
/// <remarks>Intervals of equal unit cost inside one stage may swap energy freely. Full intervals stay; what is left over in a group goes
/// first where it joins two windows, then beside a window, then, as late as it can, on its own.</remarks>
internal static class Placement
{
    private const double Full = 1 - 1e-9;
    private const double Empty = 1e-9;

    public static double[] Edges(Stay stay, double[] shares)
    {
        var on = new double[stay.Count];
        for (var j = 0; j < stay.Count; j++)
        {
            on[j] = Math.Clamp(shares[stay.First + j], 0, 1);
        }

        // Where in an interval a part of it is on: its start (true) or its end.
        var early = new bool[stay.Count];
        var settled = new bool[stay.Count];
        foreach (var group in Groups(stay, on))
        {
            Settle(stay, group, on, early, settled);
        }

        return Edges(on, early);
    }

    /// <summary>Runs of members with equal unit cost between two boundaries where a bound changes, groups with leftovers last.</summary>
    private static List<int[]> Groups(Stay stay, double[] on)
    {
        var problem = stay.Problem;
        var groups = new Dictionary<(int Stage, double Cost), List<int>>();
        var stage = 0;
        for (var j = 0; j < stay.Count; j++)
        {
            var i = stay.First + j;
            if (j > 0 && (problem.LowerKwh[i] != problem.LowerKwh[i - 1] || problem.UpperKwh[i] < problem.UpperKwh[i + 1]))
            {
                stage++;
            }

            if (problem.NetKw[i] <= 0)
            {
                continue;
            }

            var cost = problem.Price[i] * (problem.Price[i] >= 0 ? problem.WallKw[i] / problem.NetKw[i] : 1);
            if (!groups.TryGetValue((stage, cost), out var members))
            {
                groups[(stage, cost)] = members = [];
            }

            members.Add(j);
        }

        return [.. groups.Values.Select(m => m.ToArray()).OrderBy(m => m.Any(j => on[j] < Full) ? 1 : 0).ThenBy(m => m[0])];
    }

    private static void Settle(Stay stay, int[] members, double[] on, bool[] early, bool[] settled)
    {
        var problem = stay.Problem;
        double Capacity(int j) => problem.NetKw[stay.First + j] * problem.Hours[stay.First + j];
        var left = members.Sum(j => on[j] * Capacity(j));
        foreach (var j in members)
        {
            on[j] = 0;
            settled[j] = true;
        }

        var runs = Runs(members);
        bool OnBefore(int[] run) => run[0] > 0 && on[run[0] - 1] > Full;
        bool OnAfter(int[] run) => run[^1] + 1 < on.Length && on[run[^1] + 1] > Full;

        foreach (var run in runs.Where(r => OnBefore(r) && OnAfter(r)).OrderBy(r => r.Sum(Capacity)).ToArray())
        {
            if (run.Sum(Capacity) <= left + Empty)
            {
                left = Fill(run, left, forward: true);
                runs.Remove(run);
            }
        }

        foreach (var run in runs.Where(r => OnBefore(r) || OnAfter(r)).Reverse().ToArray())
        {
            left = Fill(run, left, forward: OnBefore(run));
            runs.Remove(run);
        }

        // On their own: first a run that holds all of it, as late as possible, else the largest.
        while (left > Empty && runs.Count > 0)
        {
            var run = runs.LastOrDefault(r => r.Sum(Capacity) >= left - Empty) ?? runs.MaxBy(r => r.Sum(Capacity))!;
            left = Fill(run, left, forward: false);
            runs.Remove(run);
        }

        double Fill(int[] run, double energy, bool forward)
        {
            foreach (var j in forward ? run : run.Reverse())
            {
                if (energy <= Empty)
                {
                    break;
                }

                on[j] = Math.Min(1, energy / Capacity(j));
                early[j] = forward;
                energy -= on[j] * Capacity(j);
            }

            return Math.Max(0, energy);
        }
    }

    private static List<int[]> Runs(int[] members)
    {
        var runs = new List<int[]>();
        var start = 0;
        for (var m = 1; m <= members.Length; m++)
        {
            if (m == members.Length || members[m] != members[m - 1] + 1)
            {
                runs.Add(members[start..m]);
                start = m;
            }
        }

        return runs;
    }

    private static double[] Edges(double[] on, bool[] early)
    {
        var edges = new List<double>();
        for (var j = 0; j < on.Length; j++)
        {
            if (on[j] <= Empty)
            {
                continue;
            }

            var start = on[j] > Full || early[j] ? j : j + 1 - on[j];
            var end = on[j] > Full || !early[j] ? j + 1 : j + on[j];
            if (edges.Count > 0 && start - edges[^1] < Empty)
            {
                edges[^1] = end;
            }
            else
            {
                edges.Add(start);
                edges.Add(end);
            }
        }

        return [.. edges];
    }
}
