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
    private static readonly TimeSpan WarmUp = TimeSpan.FromMilliseconds(500);

    public static void Run()
    {
        var plans = RatePlanLibrary.All;
        Console.WriteLine($"A year of 35,040 quarter hours; median of {Runs} runs after {WarmUp.TotalSeconds} s of them (interquartile range) [ms]; allocated by one bill [kB].");
        foreach (var plan in plans)
        {
            var (series, input) = (Year(plan.Zone, 7), Beside(plan));
            Print(plan.Id, () => Biller.Bill(plan, series, input: input));
            if (plan.Export is not null)
            {
                var exporting = input with { Export = Year(plan.Zone, 8) };
                Print($"{plan.Id}, with export", () => Biller.Bill(plan, series, input: exporting));
            }
        }

        var twenty = Enumerable.Range(0, Many).Select(i => plans[i % plans.Count]).Select(p => (Plan: p, Series: Year(p.Zone, 7), Input: Beside(p))).ToArray();
        Print($"{Many} plans ({plans.Count} different)", () =>
        {
            foreach (var (plan, series, input) in twenty)
            {
                Biller.Bill(plan, series, input: input);
            }
        });
    }

    private static void Print(string name, Action bill)
    {
        var (time, allocated) = Measure(bill);
        Console.WriteLine($"  {name,-42} {time}   {allocated / 1024.0,8:F0}");
    }

    // Published prices by the hour, for the plans that are priced by them.
    private static BillInput Beside(RatePlan plan)
    {
        var start = plan.Zone.AtStartOfDay(new LocalDate(2026, 1, 1)).ToInstant();
        var prices = Enumerable.Range(0, 8760).Select(hour => (decimal?)(0.05m + (hour % 24 * 0.01m))).ToArray();
        return new() { Prices = plan.PriceSeriesNames.ToDictionary(name => name, _ => new PriceSeries(start, Duration.FromHours(1), prices)) };
    }

    private static (Quartiles Milliseconds, long Bytes) Measure(Action bill)
    {
        var times = new List<double>();
        var bytes = 0L;
        // Warm first, as a service is: the compiler has seen every loop.
        for (var begun = Stopwatch.GetTimestamp(); Stopwatch.GetElapsedTime(begun) < WarmUp;)
        {
            bill();
        }

        for (var run = 0; run < Runs; run++)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            var begun = Stopwatch.GetTimestamp();
            bill();
            times.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
            bytes = GC.GetAllocatedBytesForCurrentThread() - before;
        }

        return (Quartiles.Of(times), bytes);
    }

    private static MeteredSeries Year(DateTimeZone zone, int seed)
    {
        var random = new Random(seed);
        var start = zone.AtStartOfDay(new LocalDate(2026, 1, 1)).ToInstant();
        var end = zone.AtStartOfDay(new LocalDate(2027, 1, 1)).ToInstant();
        var kwh = Enumerable.Range(0, (int)((end - start).TotalMinutes / 15)).Select(_ => random.NextDouble()).ToArray();
        return MeteredSeries.FromKilowattHours(start, Duration.FromMinutes(15), kwh);
    }
}
