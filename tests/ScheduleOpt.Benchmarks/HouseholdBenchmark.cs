using System.Diagnostics;
using NodaTime;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Benchmarks;

/// <summary>Households by kind: how long they take, how many need integers and of these ranges of peaks, and the same integers given whole to SCIP and to CP-SAT.</summary>
internal static class HouseholdBenchmark
{
    private static readonly (string Name, HouseholdTraits Traits)[] Kinds =
    [
        ("one car, full current", new()),
        ("one car, full current, demand", new() { Demand = true }),
        ("one car, adjustable, demand", new() { Demand = true, Rules = new() { Adjustable = true } }),
        ("one car, whole amperes, demand", new() { Demand = true, Rules = new() { Adjustable = true, WholeAmperes = true } }),
        ("one car, one window", new() { Rules = new() { MostWindows = 1 } }),
        ("one car, 30 min on and off", new() { Rules = new() { LeastOn = Duration.FromMinutes(30), LeastOff = Duration.FromMinutes(30) } }),
        ("two cars, solar, demand", new() { Cars = 2, Solar = true, Demand = true, SharedCircuit = true, Rules = new() { Adjustable = true } }),
    ];

    private static readonly (string Name, int Hours)[] Horizons = [("1 night", 24), ("7 nights", 168)];

    // Processor time of every household measured, by horizon and whether it reached integers.
    private static readonly Dictionary<(string Horizon, bool Integers), List<double>> Pooled = [];

    private static int Runs => int.TryParse(Environment.GetEnvironmentVariable("SCHEDULEOPT_BENCHMARK_RUNS"), out var runs) ? runs : 25;

    public static void Run()
    {
        Console.WriteLine($"Household in memory to a schedule, {Runs} households a line [ms of processor time; of the clock in brackets].");
        Console.WriteLine($"{"",-34}{"",-10}{"step",5}{"integers",10}{"ranges",8}{"median",9}{"p99",9}   {"linear p99",11}{"integers median, p99",22}   {"gap",8}{"in rule",8}{"stopped",8}");
        foreach (var (name, traits) in Kinds)
        {
            foreach (var (horizon, hours) in Horizons)
            {
                foreach (var step in new[] { 15, 5 })
                {
                    Measure(name, horizon, traits with { Hours = hours, StepMinutes = step });
                }
            }
        }

        foreach (var (horizon, _) in Horizons)
        {
            var (linear, integers) = (Pooled[(horizon, false)], Pooled[(horizon, true)]);
            Console.WriteLine($"{"all kinds",-34}{horizon,-10} linear {linear.Count}: median {At(linear, 0.5):F1}, p99 {At(linear, 0.99):F1}; integers {integers.Count}: median {At(integers, 0.5):F1}, p99 {At(integers, 0.99):F1}");
        }

        Console.WriteLine();
        Console.WriteLine("Integers over the whole horizon, 1 night [ms of processor time]; objective above the best of both [currency].");
        foreach (var (name, traits) in Kinds.Where(k => k.Traits.Demand))
        {
            foreach (var step in new[] { 15, 5 })
            {
                Whole(name, traits with { Hours = 24, StepMinutes = step });
            }
        }
    }

    private static void Measure(string name, string horizon, HouseholdTraits traits)
    {
        var (all, linear, integers, clock, gaps) = (new List<double>(), new List<double>(), new List<double>(), new List<double>(), new List<double>());
        var (stopped, within, ranges) = (0, 0, 0);
        // Before a night is measured its kind has been solved once: a service has compiled what it runs long before.
        for (var run = traits.Hours > 24 ? -2 : -Runs; run < Runs; run++)
        {
            var problem = RandomHouseholds.Problem(run < 0 ? -run - 1 : run, traits);
            var (began, processor) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
            var schedule = HouseholdScheduler.Solve(problem);
            var taken = (Environment.CpuUsage.TotalTime - processor).TotalMilliseconds;
            if (run >= 0)
            {
                all.Add(taken);
                (schedule.Route == SolveRoute.Integers ? integers : linear).Add(taken);
                ranges += schedule.SearchedPeaks ? 1 : 0;
                clock.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
                gaps.Add(schedule.Gap);
                within += HouseholdScheduler.IsFine(schedule.Objective, schedule.Bound) ? 1 : 0;
                stopped += schedule.LimitReached ? 1 : 0;
            }
        }

        foreach (var (times, byIntegers) in new[] { (linear, false), (integers, true) })
        {
            Pooled.TryAdd((horizon, byIntegers), []);
            Pooled[(horizon, byIntegers)].AddRange(times);
        }

        Console.WriteLine(
            $"{name,-34}{horizon,-10}{traits.StepMinutes,5}{(double)integers.Count / Runs,10:P0}{(double)ranges / Runs,8:P0}{At(all, 0.5),9:F1}{At(all, 0.99),9:F1}   {At(linear, 0.99),11:F1}"
            + $"{At(integers, 0.5),12:F1}{At(integers, 0.99),10:F1}   {gaps.Average(),8:F4}{(double)within / Runs,8:P0}{stopped,8}   ({At(clock, 0.5):F1}, {At(clock, 0.99):F1})");
    }

    private static void Whole(string name, HouseholdTraits traits)
    {
        var (scip, cpSat, scipOver, cpSatOver) = (new List<double>(), new List<double>(), new List<double>(), new List<double>());
        var (scipStopped, cpSatStopped) = (0, 0);
        for (var run = 0; run < Math.Min(Runs, 10); run++)
        {
            var model = HouseholdModel.Of(RandomHouseholds.Problem(run, traits));
            var relaxation = HouseholdRelaxation.Solve(Segments.Of(model), ShortfallOrder.InTimeOrder);
            if (relaxation.Shortfalls.Any)
            {
                continue;
            }

            var processor = Environment.CpuUsage.TotalTime;
            var plan = OnOffPlan.Integers(Segments.Unmerged(model), throughout: true);
            var limit = SolveLimit.Default with { GuardMilliseconds = 20_000 };
            var byScip = StrictOrder.Integers(plan, relaxation.Shortfalls, ShortfallOrder.InTimeOrder, limit, null);
            scip.Add((Environment.CpuUsage.TotalTime - processor).TotalMilliseconds);
            processor = Environment.CpuUsage.TotalTime;
            var byCpSat = CpSatHousehold.Solve(model, deterministicSeconds: 2);
            cpSat.Add((Environment.CpuUsage.TotalTime - processor).TotalMilliseconds);
            var one = byScip.IsSolved ? byScip.Objective : double.PositiveInfinity;
            var other = double.IsNaN(byCpSat.Objective) ? double.PositiveInfinity : byCpSat.Objective;
            if (double.IsFinite(one))
            {
                scipOver.Add(one - Math.Min(one, other));
            }

            if (double.IsFinite(other))
            {
                cpSatOver.Add(other - Math.Min(one, other));
            }

            scipStopped += byScip.LimitReached ? 1 : 0;
            cpSatStopped += byCpSat.Optimal ? 0 : 1;
        }

        Console.WriteLine(
            $"{name,-34}{traits.StepMinutes,5}   SCIP {At(scip, 0.5),9:F1} (most {At(scip, 1):F1}), above {scipOver.DefaultIfEmpty(0).Average():F4}, stopped {scipStopped}, none {scip.Count - scipOver.Count}"
            + $"   CP-SAT {At(cpSat, 0.5),9:F1} (most {At(cpSat, 1):F1}), above {cpSatOver.DefaultIfEmpty(0).Average():F4}, stopped {cpSatStopped}, none {cpSat.Count - cpSatOver.Count}");
    }

    private static double At(List<double> values, double share) => values.Count == 0 ? 0 : Quartiles.At([.. values.Order()], share);
}
