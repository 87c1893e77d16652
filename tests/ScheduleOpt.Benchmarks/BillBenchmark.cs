using System.Diagnostics;
using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Benchmarks;

/// <summary>A year of quarter hours billed under one plan, and under twenty.</summary>
internal static class BillBenchmark
{
    private const int Runs = 30;
    private const int Many = 20;

    public static void Run()
    {
        // Plans that need published prices beside them are billed by the same code; here all inputs are the meter's.
        var plans = RatePlanLibrary.All.Where(p => p.PriceSeriesNames.Count == 0 && p.Metering == Metering.WholeHouse).ToArray();
        Console.WriteLine($"A year of 35,040 quarter hours; median of {Runs} runs (interquartile range) [ms]; allocated by one bill [kB].");
        foreach (var plan in plans)
        {
            var series = Year(plan.Zone);
            var (time, allocated) = Measure(() => Biller.Bill(plan, series));
            Console.WriteLine($"  {plan.Id,-36} {time}   {allocated / 1024.0,8:F0}");
        }

        var twenty = Enumerable.Range(0, Many).Select(i => plans[i % plans.Length]).Select(p => (Plan: p, Series: Year(p.Zone))).ToArray();
        var (all, total) = Measure(() =>
        {
            foreach (var (plan, series) in twenty)
            {
                Biller.Bill(plan, series);
            }
        });
        Console.WriteLine($"  {$"{Many} plans ({plans.Length} different)",-36} {all}   {total / 1024.0,8:F0}");
    }

    private static (Quartiles Milliseconds, long Bytes) Measure(Action bill)
    {
        var times = new List<double>();
        var bytes = 0L;
        for (var run = -5; run < Runs; run++)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            var begun = Stopwatch.GetTimestamp();
            bill();
            if (run >= 0)
            {
                times.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
            }

            bytes = GC.GetAllocatedBytesForCurrentThread() - before;
        }

        return (Quartiles.Of(times), bytes);
    }

    private static MeteredSeries Year(DateTimeZone zone)
    {
        var random = new Random(7);
        var start = zone.AtStartOfDay(new LocalDate(2026, 1, 1)).ToInstant();
        var end = zone.AtStartOfDay(new LocalDate(2027, 1, 1)).ToInstant();
        var kwh = Enumerable.Range(0, (int)((end - start).TotalMinutes / 15)).Select(_ => random.NextDouble()).ToArray();
        return MeteredSeries.FromKilowattHours(start, Duration.FromMinutes(15), kwh);
    }
}
