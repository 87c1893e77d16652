using System.Diagnostics;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Benchmarks;

/// <summary>Household-years for a decision: rate plans x set-ups x behaviours, from the case in memory to every cell with its bills.</summary>
internal static class DecisionBenchmark
{
    private const int Runs = 5;
    private const double Mebibyte = 1024 * 1024;

    public static void Run()
    {
        Console.WriteLine("Household-years at 15 min with hourly temperatures, from the case in memory to ranked cells, bills with and without the car included.");
        Console.WriteLine($"Wall time, median of {Runs} runs after one (interquartile range) [ms], on {Environment.ProcessorCount} cores; wall time a cell [ms]; processor time, median [ms]: what");
        Console.WriteLine("counts where others use the machine; allocated in all [MB]; largest heap after a collection [MB].");
        Console.WriteLine("Shared: physics and forecasts of a set-up by all its cells; a run without help by all rate plans; bill and prices of the house by all");
        Console.WriteLine("set-ups; the search of a plan by plans with equal prices (none here). A cell's own: least-cost search, simulation, bill with the car.");
        var all = DecisionYear.Behaviours;
        Print("A: 20 plans x 6 set-ups x 5 behaviours", DecisionYear.Of(DecisionYear.Plain(20), 6, all));
        Console.WriteLine($"     process peak after A: {Process.GetCurrentProcess().PeakWorkingSet64 / Mebibyte:F0} MB");
        Print("   of it the three without help", DecisionYear.Of(DecisionYear.Plain(20), 6, [.. all.Where(b => b is UnaidedBehaviour)]));
        Print("   of it known ahead", DecisionYear.Of(DecisionYear.Plain(20), 6, [.. all.OfType<LeastCostKnownAhead>()]));
        Print("   of it night by night", DecisionYear.Of(DecisionYear.Plain(20), 6, [.. all.OfType<LeastCostByNight>()]));
        Print("B: a third with demand or blocks", DecisionYear.Of([.. DecisionYear.Plain(13), .. DecisionYear.Coupled(7)], 6, all));
        Console.WriteLine($"Process peak of A and B: {Process.GetCurrentProcess().PeakWorkingSet64 / Mebibyte:F0} MB.");
        Print("1 cell", DecisionYear.Of(DecisionYear.Plain(1), 1, [new LeastCostKnownAhead()]));
        Print("10 cells", DecisionYear.Of(DecisionYear.Plain(2), 1, all));
        Print("100 cells", DecisionYear.Of(DecisionYear.Plain(10), 2, all));
        Print("1000 cells", DecisionYear.Of(DecisionYear.Plain(40), 5, all));
        Console.WriteLine();
        Reference();
    }

    private static void Print(string name, YearCase question)
    {
        var (times, processor) = (new List<double>(), new List<double>());
        var (allocated, heap, cells) = (0L, 0L, 0);
        for (var run = -1; run < Runs; run++)
        {
            GC.Collect();
            var before = GC.GetTotalAllocatedBytes();
            var used = Environment.CpuUsage.TotalTime;
            var begun = Stopwatch.GetTimestamp();
            cells = YearComparison.Run(question).Cells.Count;
            if (run >= 0)
            {
                times.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
                processor.Add((Environment.CpuUsage.TotalTime - used).TotalMilliseconds);
            }

            allocated = GC.GetTotalAllocatedBytes() - before;
            heap = Math.Max(heap, GC.GetGCMemoryInfo(GCKind.Any).HeapSizeBytes);
        }

        var quartiles = Quartiles.Of(times);
        Console.WriteLine($"  {name,-42} {cells,5} cells {quartiles}   {quartiles.Median / cells,7:F2} a cell   {Quartiles.Of(processor).Median,7:F0}   {allocated / Mebibyte,7:F0}   {heap / Mebibyte,5:F0}");
    }

    private static void Reference()
    {
        using var peer = ReferencePeer.Start(out var reason);
        Console.WriteLine($"Process peak so far: {Process.GetCurrentProcess().PeakWorkingSet64 / Mebibyte:F0} MB.");
        if (peer is null)
        {
            Console.WriteLine($"Reference skipped: {reason}.");
            return;
        }

        Console.WriteLine("A year's least cost known ahead against the reference (scipy's HiGHS, its own clock for build and solve); median of 15 alternating runs [ms].");
        SameCells(peer);
        Console.WriteLine("The reference's own years of the same size:");
        foreach (var temperatures in new[] { "one", "hourly" })
        {
            var problem = peer.Make("year", true, temperatures).ToProblem(temperatures == "one");
            var (ours, theirs, objective, cost) = (new List<double>(), new List<double>(), 0.0, 0.0);
            for (var run = -3; run < 15; run++)
            {
                (var milliseconds, objective, _, _) = peer.Solve();
                var begun = Stopwatch.GetTimestamp();
                cost = Scheduler.Solve(problem, SolverChoice.Direct).Objective;
                var taken = Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
                if (run >= 0)
                {
                    theirs.Add(milliseconds);
                    ours.Add(taken);
                }
            }

            var (mine, reference) = (Quartiles.Of(ours), Quartiles.Of(theirs));
            Console.WriteLine($"  three prices, {temperatures,-6} temperatures: reference {reference}, direct and merged {mine}, ratio {reference.Median / mine.Median:F0}; objectives {objective:F6} and {cost:F6}");
        }
    }

    private static void SameCells(ReferencePeer peer)
    {
        Console.WriteLine("Cells of A, the reference given their intervals, bounds and wishes; median of 5 alternating runs [ms]:");
        var question = DecisionYear.Of(DecisionYear.Plain(20), 6, [new LeastCostKnownAhead()]);
        var frame = new YearFrame(question);
        foreach (var (setUp, rate) in new[] { (1, 0), (3, 9), (5, 18), (2, 15) })
        {
            var problem = frame.Problem(question.SetUps[setUp], PlanYear.Of(frame, question.RatePlans[rate]).Prices);
            var best = Scheduler.Solve(problem, SolverChoice.Direct);
            peer.Load(problem, (problem.FinalKwh ?? 0) - best.FinalShortfallKwh);
            var (ours, theirs, found) = (new List<double>(), new List<double>(), default(PeerSolution)!);
            for (var run = -1; run < 5; run++)
            {
                found = peer.Solve();
                var begun = Stopwatch.GetTimestamp();
                best = Scheduler.Solve(problem, SolverChoice.Direct);
                var taken = Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
                if (run >= 0)
                {
                    theirs.Add(found.Milliseconds);
                    ours.Add(taken);
                }
            }

            var (mine, reference) = (Quartiles.Of(ours), Quartiles.Of(theirs));
            var shortKwh = best.TripShortfallKwh.Sum() + best.TargetShortfallKwh.Sum();
            Console.WriteLine(
                $"  {question.SetUps[setUp].Name}, {question.RatePlans[rate].Id}: {problem.Count} intervals; reference {reference}, direct and merged {mine}, ratio {reference.Median / mine.Median:F0}; cost {found.Cost:F6} and {best.Cost:F6}, short {found.ShortKwh:F3} and {shortKwh:F3} kWh");
        }
    }
}
