using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.TestKit;

/// <summary>What a random household has.</summary>
public sealed record HouseholdTraits
{
    public int Cars { get; init; } = 1;

    public int Hours { get; init; } = 24;

    public int StepMinutes { get; init; } = 60;

    public bool Demand { get; init; }

    public bool Solar { get; init; }

    public bool Blocks { get; init; }

    public bool NonConvex { get; init; }

    public bool Minimum { get; init; }

    public bool ImportLimit { get; init; }

    public bool SharedCircuit { get; init; }

    public bool NegativePrices { get; init; }

    public bool Carbon { get; init; }

    public RunningRules Rules { get; init; } = RunningRules.FullCurrent;
}

/// <summary>Seeded random households on a grid that all cars share.</summary>
public static class RandomHouseholds
{
    /// <summary>A household with traits drawn at random: small enough that integers over all of it can be solved.</summary>
    public static HouseholdProblem Small(int seed)
    {
        var random = new Random(seed);
        var cars = random.Next(3) == 0 ? 2 : 1;
        return Problem(seed, new()
        {
            Cars = cars,
            Hours = 12 + random.Next(18),
            StepMinutes = random.Next(4) == 0 ? 30 : 60,
            Demand = random.Next(2) == 0,
            Solar = random.Next(3) == 0,
            Blocks = random.Next(3) == 0,
            NonConvex = random.Next(6) == 0,
            Minimum = random.Next(6) == 0,
            ImportLimit = random.Next(4) == 0,
            SharedCircuit = cars > 1 && random.Next(2) == 0,
            NegativePrices = random.Next(6) == 0,
            Carbon = random.Next(5) == 0,
            Rules = Rules(random),
        });
    }

    /// <summary>A household in which every trait, and every rule of running, is drawn by itself: all combinations occur.</summary>
    public static HouseholdProblem EveryTrait(int seed)
    {
        var random = new Random(seed + 1_000_000);
        bool Often(int oneIn) => random.Next(oneIn) == 0;
        var cars = Often(2) ? 1 : Often(4) ? 3 : 2;
        return Problem(seed, new()
        {
            Cars = cars,
            Hours = 12 + random.Next(30),
            StepMinutes = new[] { 15, 30, 60, 60 }[random.Next(4)],
            Demand = Often(2),
            Solar = Often(3),
            Blocks = Often(3),
            NonConvex = Often(6),
            Minimum = Often(4),
            ImportLimit = Often(3),
            SharedCircuit = cars > 1 && Often(2),
            NegativePrices = Often(5),
            Carbon = Often(5),
            Rules = AnyRules(random, windowsOneIn: 4, leastOnSteps: 5),
        });
    }

    public static HouseholdProblem Problem(int seed, HouseholdTraits traits)
    {
        var random = new Random(seed);
        var start = Instant.FromUtc(2026, 1 + random.Next(12), 1 + random.Next(28), 16 + random.Next(4), 0);
        var end = start + Duration.FromHours(traits.Hours);
        var step = Duration.FromMinutes(traits.StepMinutes);
        var prices = Prices(random, start, end, traits.NegativePrices);
        var mean = (35 * random.NextDouble()) - 10;
        var flat = random.Next(2) == 0;
        var temperatures = new TemperatureForecast(
            start - Duration.FromHours(3),
            Duration.FromHours(1),
            Enumerable.Range(0, traits.Hours + 40).Select(h => flat ? mean : mean + Math.Round(4 * Math.Sin(h * Math.PI / 12))));
        var cars = Enumerable.Range(0, traits.Cars).Select(c => Car(random, c, start, end, step, prices, temperatures, traits)).ToArray();
        var problem = cars[0].Problem;
        var n = problem.Count;
        var house = new double[n];
        var solar = new double[n];
        var (export, carbon, import) = (new double[n], new double[n], new double[n]);
        var (feed, sun, dirty) = (Math.Round(0.3 * random.NextDouble(), 3), 2 + (6 * random.NextDouble()), Math.Round(0.08 * random.NextDouble(), 3));
        for (var i = 0; i < n; i++)
        {
            var hour = (int)((problem.Boundaries[i].ToUnixTimeSeconds() / 3600) % 24);
            house[i] = Math.Round(0.4 + (hour is >= 17 and < 22 ? 1.5 : 0.3) + (hour % 3 * 0.2), 3);
            solar[i] = traits.Solar ? Math.Round(Math.Max(0, sun * Math.Sin((hour - 6) * Math.PI / 12)), 3) : 0;
            import[i] = (double)prices.At(problem.Boundaries[i]).ImportPerKwh;
            export[i] = traits.Solar ? feed : 0;
            carbon[i] = traits.Carbon ? dirty * (1 + (hour % 2)) : 0;
        }

        var most = house.Zip(solar, (h, s) => h - s).Max();
        return new()
        {
            Boundaries = problem.Boundaries,
            Hours = problem.Hours,
            Cars = cars,
            HouseKw = house,
            SolarKw = solar,
            ImportPrice = import,
            ExportPrice = export,
            CarbonPrice = carbon,
            ImportLimitKw = traits.ImportLimit ? Math.Round(most + (10 * random.NextDouble()) - 1, 2) : null,
            Circuits = traits.SharedCircuit ? [new([.. Enumerable.Range(0, cars.Length)], 10 + random.Next(30))] : [],
            Terms = [.. Terms(random, start, end, house.Max(), traits)],
        };
    }

    /// <summary>Rules of which each is drawn by itself.</summary>
    /// <param name="random">The draws.</param>
    /// <param name="windowsOneIn">In one of so many cases windows are limited.</param>
    /// <param name="leastOnSteps">Least lengths are fewer half hours than this.</param>
    public static RunningRules AnyRules(Random random, int windowsOneIn, int leastOnSteps) => new()
    {
        Adjustable = random.Next(2) == 0,
        WholeAmperes = random.Next(2) == 0,
        MostWindows = random.Next(windowsOneIn) == 0 ? 1 + random.Next(3) : null,
        LeastOn = random.Next(2) == 0 ? Duration.FromMinutes(30 * random.Next(leastOnSteps)) : Duration.Zero,
        LeastOff = random.Next(3) == 0 ? Duration.FromMinutes(30 * random.Next(4)) : Duration.Zero,
    };

    private static RunningRules Rules(Random random) => random.Next(5) switch
    {
        0 => RunningRules.FullCurrent,
        1 => new() { Adjustable = true },
        2 => new() { Adjustable = true, WholeAmperes = true },
        3 => new() { MostWindows = 1 + random.Next(2) },
        _ => new() { Adjustable = random.Next(2) == 0, LeastOn = Duration.FromHours(1 + random.Next(2)), LeastOff = Duration.FromHours(random.Next(3)) },
    };

    private static HouseholdCar Car(
        Random random, int index, Instant start, Instant end, Duration step, PriceSchedule prices, TemperatureForecast temperatures, HouseholdTraits traits)
    {
        var breaker = new[] { 20, 40, 50 }[random.Next(3)];
        var supply = new Supply { VoltageV = 240, Phases = 1, BreakerA = breaker };
        var ordinary = 0.7 + (0.2 * random.NextDouble());
        var vehicle = new Vehicle
        {
            UsableEnergy = Energy.FromKilowattHours(30 + (50 * random.NextDouble())),
            OnBoardCharger = Power.FromKilowatts(random.Next(2) == 0 ? 7.2 : 11.5),
            OrdinaryLimit = StateOfCharge.FromFraction(ordinary),
            ExtendedLimit = StateOfCharge.FromFraction(1),
            Consumption = new() { ReferenceKwhPerKm = 0.18 },
            Minimum = StateOfCharge.FromFraction(0.1),
        };
        var trips = new List<Trip>();
        var at = start + Duration.FromHours(9 + random.Next(6));
        while (true)
        {
            // The way out and the way back take half each: whole hours.
            var back = at + Duration.FromHours(2 * (1 + random.Next(4)));
            if (back >= end)
            {
                break;
            }

            StateOfCharge? target = random.Next(3) == 0 ? StateOfCharge.FromFraction(0.5 + (0.3 * random.NextDouble())) : null;
            trips.Add(Trip.Plain(at, back, Distance.FromKilometres(20 + (random.Next(8) == 0 ? 300 : 100 * random.NextDouble())), target));
            at = back + Duration.FromHours(6 + random.Next(16));
        }

        var problem = ChargingProblemBuilder.Build(new()
        {
            Start = start,
            End = end,
            GridStep = step,
            Vehicle = vehicle,
            Supply = supply,
            PluggedInAt = StateOfCharge.FromFraction(0.12 + (0.5 * random.NextDouble())),
            Calendar = new(trips),
            Prices = prices,
            Temperatures = temperatures,
        });
        var mostA = problem.WallKw.Max() * 1000 / 240;
        return new(
            $"car {index + 1}", problem, 240, [.. problem.Place.Select(p => p == Place.Home ? mostA : 0)], 6, traits.Rules);
    }

    private static PriceSchedule Prices(Random random, Instant start, Instant end, bool negative)
    {
        var levels = new[] { 0.09m, 0.17m, 0.34m }.Select(p => p + Math.Round((decimal)random.NextDouble() / 20, 3)).ToArray();
        var hourly = random.Next(3) == 0;
        var spans = new List<PriceSpan>();
        for (var at = start; at < end; at += Duration.FromHours(1))
        {
            var hour = at.ToUnixTimeSeconds() / 3600 % 24;
            var price = hourly ? Math.Round((decimal)random.NextDouble() / 3, 3)
                : hour < 6 ? levels[0] : hour is >= 16 and < 21 ? levels[2] : levels[1];
            spans.Add(new(at, negative && hour is >= 2 and < 5 ? -0.05m : price, "p"));
        }

        return new(spans, end, "USD");
    }

    private static IEnumerable<PriceTerm> Terms(Random random, Instant start, Instant end, double houseKw, HouseholdTraits traits)
    {
        var middle = start + Duration.FromHours(traits.Hours / 2);
        Interval[] periods = random.Next(3) == 0
            ? [new(start - Duration.FromDays(9), middle), new(middle, end + Duration.FromDays(9))]
            : [new(start - Duration.FromDays(9), end + Duration.FromDays(9))];
        foreach (var period in periods)
        {
            Interval within = new(Instant.Max(period.Start, start), Instant.Min(period.End, end));
            if (traits.Demand)
            {
                var isEvening = random.Next(2) == 0;
                var averaging = Duration.FromMinutes(Math.Max(15, traits.StepMinutes) * (random.Next(3) == 0 ? 2 : 1));
                Interval told = new(Instant.Max(period.Start, within.Start - averaging), within.End);
                var evening = isEvening ? Hours(told, 15, 23) : [told];
                var measured = (decimal)Math.Round(houseKw + (3 * random.NextDouble()), 2);
                DemandPrice[] blocks = traits.NonConvex
                    ? [new(measured + 3, 4m), new(null, 1m)]
                    : random.Next(2) == 0 ? [new(null, 3m)] : [new(measured + 2, 1m), new(null, 4m)];
                yield return new DemandTerm("Demand", period, !traits.NonConvex, evening, averaging, random.Next(4) == 0, measured, 0, measured, blocks, null);
            }

            if (traits.Blocks)
            {
                var used = Math.Round((decimal)(100 * random.NextDouble()), 2);
                PriceBlock[] blocks = traits.NonConvex
                    ? [new(used + 8, 0.2m), new(12, 0.15m), new(null, 0.1m)]
                    : [new(used + 5, 0.1m), new(10, 0.13m), new(null, 0.2m)];
                yield return new BlockTerm("Blocks", period, !traits.NonConvex, [within], used, blocks, 0, traits.NonConvex && random.Next(2) == 0);
            }

            if (traits.NonConvex && random.Next(2) == 0)
            {
                yield return new BandTerm("Credit", period, 120, 200, 110, -2m);
            }

            if (traits.Minimum)
            {
                yield return new MinimumTerm("Minimum", period, 20, 20 - Math.Round((decimal)(3 * random.NextDouble()), 2));
            }
        }
    }

    private static Interval[] Hours(Interval within, int from, int until)
    {
        var spans = new List<Interval>();
        var day = Instant.FromUnixTimeSeconds(within.Start.ToUnixTimeSeconds() / 86400 * 86400);
        for (; day < within.End; day += Duration.FromDays(1))
        {
            var (a, b) = (Instant.Max(within.Start, day + Duration.FromHours(from)), Instant.Min(within.End, day + Duration.FromHours(until)));
            if (a < b)
            {
                spans.Add(new(a, b));
            }
        }

        return [.. spans];
    }
}
