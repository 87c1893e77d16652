using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>Many households in one process: no native crash under 16 threads, and resident memory that stays flat.</summary>
public class LongRunTests
{
    private const int Sample = 96;
    private const int Threads = 16;
    private const int Parts = 5;

    private static int Count => int.TryParse(Environment.GetEnvironmentVariable("SCHEDULEOPT_HOUSEHOLD_RUNS"), out var count) ? count : Sample;

    [Fact]
    public void Solving_OnSixteenThreads_GivesTheSameAndKeepsMemoryFlat()
    {
        // Short searches: what is looked for is what a solver leaves behind.
        var limit = SolveLimit.Default with { Nodes = 5, GuardMilliseconds = 120_000 };
        var distinct = Math.Min(Count, 200);
        var objectives = new double[distinct];
        Parallel.For(0, distinct, new() { MaxDegreeOfParallelism = Threads }, seed => objectives[seed] = Solve(seed));
        var resident = new List<double>();
        for (var part = 0; part < Parts; part++)
        {
            Parallel.For(part * Count / Parts, (part + 1) * Count / Parts, new() { MaxDegreeOfParallelism = Threads }, run => Assert.Equal(objectives[run % distinct], Solve(run % distinct)));
            resident.Add(ResidentBytes() / 1e6);
            TestContext.Current.SendDiagnosticMessage($"{(part + 1) * Count / Parts} runs: {resident[^1]:F1} MB resident");
        }

        // The first fifth warms up: every thread has its arena of the allocator, and each has been as large as it gets.
        if (Count > Sample)
        {
            Assert.True(resident[^1] < resident[0] * 1.05, $"{string.Join(", ", resident.Select(mb => $"{mb:F1}"))} MB after each fifth of {Count} runs.");
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
