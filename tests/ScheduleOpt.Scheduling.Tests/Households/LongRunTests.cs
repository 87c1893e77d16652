using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>Many households in one process: no native crash under 16 threads, and resident memory that stays flat.</summary>
public class LongRunTests
{
    private const int Sample = 96;
    private const int Threads = 16;

    private static int Count => int.TryParse(Environment.GetEnvironmentVariable("SCHEDULEOPT_HOUSEHOLD_RUNS"), out var count) ? count : Sample;

    [Fact]
    public void Solving_OnSixteenThreads_GivesTheSameAndKeepsMemoryFlat()
    {
        // Short searches: what is looked for is what a solver leaves behind.
        var limit = SolveLimit.Default with { Nodes = 5, GuardMilliseconds = 120_000 };
        var distinct = Math.Min(Count, 200);
        var objectives = new double[distinct];
        Parallel.For(0, distinct, new() { MaxDegreeOfParallelism = Threads }, seed => objectives[seed] = Solve(seed));
        var warm = ResidentBytes();
        Parallel.For(0, Count, new() { MaxDegreeOfParallelism = Threads }, run => Assert.Equal(objectives[run % distinct], Solve(run % distinct)));
        if (Count > Sample)
        {
            var after = ResidentBytes();
            Assert.True(after < warm * 1.05, $"{warm / 1e6:F1} MB after warming up, {after / 1e6:F1} MB after {Count} more.");
        }

        double Solve(int seed) => HouseholdScheduler.Solve(RandomHouseholds.Small(seed), ShortfallOrder.InTimeOrder, limit).Objective;
    }

    private static long ResidentBytes()
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        GC.Collect();
        using var process = System.Diagnostics.Process.GetCurrentProcess();
        return process.WorkingSet64;
    }
}
