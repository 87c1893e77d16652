using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tests.Tonight;

/// <summary>Seeded small nights whose charges something couples: demand, blocks, a minimum bill, solar, an import limit, a shared circuit; one car or two. Steps of an hour, 48 hours.</summary>
internal static class CoupledNights
{
    public static Instant At(double hour) => Sample.Monday + Duration.FromHours(hour);

    /// <param name="seed">The seed.</param>
    /// <param name="ties">Whether prices are of two levels, and a wish is just what the car has or its ordinary limit: degenerate.</param>
    public static NightQuestion Of(int seed, bool ties = false)
    {
        var random = new Random(seed);
        bool Often(int oneIn) => random.Next(oneIn) == 0;
        Interval period = new(At(-200), At(300));
        var terms = new List<PriceTerm>();
        var kind = seed % 5;
        if (kind is 0 or 4)
        {
            terms.Add(new DemandTerm("demand", period, true, [period], Duration.FromHours(1), false, 3, 0, 3, [new(null, random.Next(1, 5) / 10m)], null));
        }

        if (kind == 1)
        {
            terms.Add(new BlockTerm("blocks", period, true, [period], 90, [new(100, 0.10m), new(20, 0.16m), new(null, 0.25m)], 0, false));
            terms.Add(new MinimumTerm("minimum", period, 20, 19));
        }

        var prices = new PriceSchedule(
            Enumerable.Range(0, 49).Select(h => new PriceSpan(At(h), ties ? (h % 24 < 8 ? 0.10m : 0.30m) : 0.08m + (random.Next(25) / 100m), $"hour {h}", 0.04m)),
            At(60),
            "USD",
            terms: terms);
        CarCase Car(string name)
        {
            var state = 0.3 + (0.3 * random.NextDouble());
            double? target = ties ? (Often(2) ? state : 0.8) : 0.5 + (0.3 * random.NextDouble());
            var question = Sample.Question(
                Sample.Receptacle,
                20,
                state,
                Duration.FromHours(48),
                Sample.Trip(10 + random.Next(4), 8, 20 + (40 * random.NextDouble()), target),
                Sample.Trip(34 + random.Next(3), 8, 20 + (20 * random.NextDouble())));
            return new(name, question with { GridStep = Duration.FromHours(1), Prices = prices }, new RunningRules { Adjustable = kind != 3 && Often(2) });
        }

        var two = kind == 3 || Often(2);
        return new(new HouseholdCase
        {
            Cars = two ? [Car("first"), Car("second")] : [Car("only")],
            SharedCircuitA = two && (kind == 3 || Often(2)) ? 40 : null,
            ImportLimitKw = kind == 4 || Often(4) ? 12 : null,
            House = new(Sample.Monday, Duration.FromHours(1), [.. Enumerable.Range(0, 60).Select(h => h % 24 < 5 ? 1.5 : 0.5)]),
            Solar = kind == 2 ? new(Sample.Monday, Duration.FromHours(1), [.. Enumerable.Range(0, 60).Select(h => Math.Max(0, 5 * Math.Sin((h - 13) * Math.PI / 12)))]) : null,
        });
    }
}
