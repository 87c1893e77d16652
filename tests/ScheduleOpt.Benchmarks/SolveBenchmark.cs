using System.Diagnostics;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Benchmarks;

/// <summary>One night, a week and a year: arrays in memory to a checked schedule, against the reference in the same run.</summary>
internal static class SolveBenchmark
{
    private const int Runs = 30;

    public static void Run()
    {
        using var peer = ReferencePeer.Start(out var reason);
        if (peer is null)
        {
            Console.WriteLine($"Skipped: {reason}.");
            return;
        }

        Console.WriteLine($"Arrays in memory to a schedule; median of {Runs} alternating runs (interquartile range) [ms].");
        Console.WriteLine("Ours: merge, build, solve, expand, ScheduleCheck. Reference: scipy's HiGHS, its own clock for build and solve.");
        foreach (var (span, flat, temperatures) in new[]
        {
            ("night", true, "one"), ("week", true, "one"), ("year", true, "one"), ("year", true, "hourly"), ("year", false, "hourly"),
        })
        {
            Measure(peer, span, flat, temperatures);
        }
    }

    private static void Measure(ReferencePeer peer, string span, bool flat, string temperatures)
    {
        var instance = peer.Make(span, flat, temperatures);
        var problem = instance.ToProblem(temperatures == "one");
        var roads = new (string Name, SolverChoice Choice, Reduction Reduction)[]
        {
            ("LP, GLOP, merged", SolverChoice.Glop, Reduction.Merged),
            ("LP, GLOP, unmerged", SolverChoice.Glop, Reduction.Unmerged),
            ("LP, CLP, merged", SolverChoice.Clp, Reduction.Merged),
            ("LP, CLP, unmerged", SolverChoice.Clp, Reduction.Unmerged),
            ("direct sweep, merged", SolverChoice.Direct, Reduction.Merged),
            ("direct sweep, unmerged", SolverChoice.Direct, Reduction.Unmerged),
        };
        var reference = new List<double>();
        var ours = roads.Select(_ => new List<double>()).ToArray();
        var objective = 0.0;
        var costs = new double[roads.Length];
        for (var run = -3; run < Runs; run++)
        {
            (var milliseconds, objective, _, _) = peer.Solve();
            for (var r = 0; r < roads.Length; r++)
            {
                var begun = Stopwatch.GetTimestamp();
                var least = Scheduler.Solve(problem, roads[r].Choice, reduction: roads[r].Reduction);
                var findings = ScheduleCheck.Findings(problem, Claim(instance, problem, least));
                var taken = Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
                if (findings.Count > 0)
                {
                    throw new InvalidOperationException(string.Join("; ", findings));
                }

                costs[r] = least.Objective;
                if (run >= 0)
                {
                    ours[r].Add(taken);
                }
            }

            if (run >= 0)
            {
                reference.Add(milliseconds);
            }
        }

        var theirs = Quartiles.Of(reference);
        Console.WriteLine();
        Console.WriteLine($"{span}, {(flat ? "three prices" : "a price an interval")}, {temperatures} temperature{(temperatures == "one" ? "" : "s")}, {problem.Count} intervals");
        Console.WriteLine($"  {"reference",-24} {theirs}   ratio      1   objective {objective:F6}");
        for (var r = 0; r < roads.Length; r++)
        {
            var mine = Quartiles.Of(ours[r]);
            Console.WriteLine($"  {roads[r].Name,-24} {mine}   ratio {theirs.Median / mine.Median,6:F1}   objective {costs[r]:F6}");
        }
    }

    private static ScheduleClaim Claim(PeerInstance instance, ChargingProblem problem, LeastCost least)
    {
        var on = new double[problem.Count];
        for (var i = 0; i < on.Length; i++)
        {
            on[i] = least.Shares[i] * problem.Hours[i];
        }

        return new ScheduleClaim
        {
            VoltsAcrossPhases = PeerInstance.Volts,
            CurrentA = problem.MostA,
            ContinuousRatingA = instance.Amperes,
            MinimumCurrentA = 0,
            OnHours = on,
            StoredKwh = least.StoredKwh,
            TripShortfallKwh = least.TripShortfallKwh,
            TargetShortfallKwh = least.TargetShortfallKwh,
            Cost = least.Cost,
            WithTaper = false,
        };
    }
}
