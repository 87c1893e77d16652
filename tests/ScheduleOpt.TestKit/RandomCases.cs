using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.TestKit;

/// <summary>Seeded random charging cases: cold and warm, small and large supplies, crowded calendars, prices of every sign.</summary>
public static class RandomCases
{
    public static ChargingCase Case(int seed, bool negativePrices = false)
    {
        var random = new Random(seed);
        var start = Instant.FromUtc(2026, 1 + random.Next(12), 1 + random.Next(28), random.Next(24), random.Next(4) * 15);
        var days = 2 + random.Next(6);
        var calendar = Calendar(random, start, days + 3);
        var end = Horizon.End(start, days, calendar);
        var (voltage, phases) = Pick(random, (120, 1), (208, 1), (230, 1), (240, 1), (400, 3));
        var ordinary = 0.5 + (0.5 * random.NextDouble());
        return new ChargingCase
        {
            Start = start,
            End = end,
            GridStep = Duration.FromMinutes(Pick(random, 5, 15, 30, 60)),
            Vehicle = new Vehicle
            {
                UsableEnergy = Energy.FromKilowattHours(20 + (80 * random.NextDouble())),
                OnBoardCharger = Power.FromKilowatts(Pick(random, 3.6, 7.2, 11.5)),
                Consumption = new Consumption { ReferenceKwhPerKm = 0.12 + (0.1 * random.NextDouble()) },
                OrdinaryLimit = StateOfCharge.FromFraction(ordinary),
                ExtendedLimit = StateOfCharge.FromFraction(ordinary + ((1 - ordinary) * random.NextDouble())),
                Minimum = StateOfCharge.FromFraction(0.3 * random.NextDouble()),
            },
            Supply = random.Next(20) == 0 ? null : new Supply
            {
                VoltageV = voltage,
                Phases = phases,
                BreakerA = Pick(random, 15, 20, 40),
            },
            PluggedInAt = StateOfCharge.FromFraction(random.NextDouble()),
            Calendar = calendar,
            Prices = Prices(random, start, end, negativePrices),
            Temperatures = new TemperatureForecast(
                start - Duration.FromHours(3),
                Duration.FromHours(1),
                Temperatures(random, (int)(end - start).TotalHours + 30)),
            DefaultTarget = random.Next(3) == 0 ? StateOfCharge.FromFraction(ordinary * random.NextDouble()) : null,
            TripConfidence = Pick(random, 0.5, 0.9, 0.99),
        };
    }

    private static DrivingCalendar Calendar(Random random, Instant start, int days)
    {
        var trips = new List<Trip>();
        var at = start + Duration.FromMinutes(random.Next(3) == 0 ? 0 : random.Next(1500));
        while (at < start + Duration.FromDays(days))
        {
            var back = at + Duration.FromMinutes(30 + random.Next(random.Next(6) == 0 ? 3000 : 700));
            var distance = Distance.FromKilometres(random.Next(5) == 0 ? 700 * random.NextDouble() : 90 * random.NextDouble());
            StateOfCharge? target = random.Next(5) == 0 ? StateOfCharge.FromFraction(0.5 * random.NextDouble()) : null;
            trips.Add(random.Next(4) == 0 ? WithStop(random, at, back, distance, target) : Trip.Plain(at, back, distance, target));
            at = back + Duration.FromMinutes(random.Next(5) == 0 ? 0 : random.Next(random.Next(4) == 0 ? 60 : 2500));
        }

        return new DrivingCalendar(trips);
    }

    private static Trip WithStop(Random random, Instant departure, Instant back, Distance distance, StateOfCharge? target)
    {
        var third = (back - departure) / 3;
        var half = Distance.FromKilometres(distance.Kilometres / 2);
        var stop = new TripStop(departure + third, departure + (third * 2))
        {
            ChargingPower = Power.FromKilowatts(random.Next(2) * 11 * random.NextDouble()),
            PricePerKwh = (decimal)Math.Round(0.6 * random.NextDouble(), 3),
            ShareOfDays = random.Next(2) == 0 ? 1 : 0.5,
        };
        return new Trip
        {
            Departure = departure,
            Return = back,
            Target = target,
            Legs =
            [
                new TripLeg(half, departure, stop.From, departure) { Stop = stop },
                new TripLeg(half, stop.Until, back, stop.Until),
            ],
        };
    }

    private static PriceSchedule Prices(Random random, Instant start, Instant end, bool negative)
    {
        var spans = new List<PriceSpan>();
        var step = Duration.FromMinutes(Pick(random, 60, 360, 100000));
        var levels = Enumerable.Range(0, random.Next(3) == 0 ? 1000 : 3)
            .Select(_ => Math.Round((decimal)(random.NextDouble() - (negative ? 0.3 : 0)), 4))
            .ToArray();
        for (var at = start - Duration.FromMinutes(random.Next(60)); at < end; at += step)
        {
            spans.Add(new PriceSpan(at, levels[random.Next(levels.Length)], "p"));
        }

        return new PriceSchedule(spans, end, "USD");
    }

    private static IEnumerable<double> Temperatures(Random random, int hours)
    {
        var mean = (60 * random.NextDouble()) - 30;
        var flat = random.Next(4) == 0;
        return Enumerable.Range(0, hours).Select(h => flat ? mean : mean + (6 * Math.Sin(h * Math.PI / 12)) + random.NextDouble()).ToArray();
    }

    private static T Pick<T>(Random random, params T[] choices) => choices[random.Next(choices.Length)];
}
