using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Scheduling.Tests.Windows;

/// <summary>What lies beyond a week says little about tonight: twice the horizon all but never moves tonight's first window.</summary>
/// <remarks>On a supply that fills the car in some nights. On 120 V a week may not be enough to catch up, and what is known of the second
/// week counts: there 6 of about 33 such households change, and of those with a random price an hour 5 in a hundred (measured 28 November 2026).</remarks>
public class LookingFurtherTests
{
    private const int Households = 200;

    // All hours of the calendar and prices, so that either horizon finds the same.
    private const int KnownDays = 40;

    [Fact]
    public void TwiceTheHorizon_TonightsFirstWindow_ChangesInUnderTwoOfAHundred()
    {
        var changed = Enumerable.Range(0, Households).Where(seed => !Same(Tonight(seed, 7), Tonight(seed, 14))).ToArray();

        Assert.True(changed.Length < 0.02 * Households, $"Changed: {string.Join(", ", changed)}.");
        Assert.InRange(Enumerable.Range(0, Households).Count(seed => Tonight(seed, 7) is not null), Households / 4, Households);
    }

    private static bool Same(ChargingWindow? one, ChargingWindow? other) => one is { } a && other is { } b
        ? Math.Abs((a.Start - b.Start).TotalMinutes) <= 15 && Math.Abs((a.End - b.End).TotalMinutes) <= 15
        : one is null && other is null;

    /// <summary>The first window before the first departure, as a night plans it; none: tonight does not charge.</summary>
    private static ChargingWindow? Tonight(int seed, int days)
    {
        var problem = ChargingProblemBuilder.Build(Case(seed, days));
        var least = Scheduler.Solve(problem, SolverChoice.Direct, equalCost: EqualCost.ChargeLate);
        var departure = problem.Boundaries[problem.Departures[0].Boundary];
        return WindowPlanner.Plan(problem, least).FirstOrDefault(w => w.Start < departure) is { Hours: > 0 } window ? window : null;
    }

    private static ChargingCase Case(int seed, int days)
    {
        var random = new Random(seed);
        var monday = new LocalDate(2026, 1, 5).PlusWeeks(random.Next(51));
        var start = At(monday, 18 + random.Next(4));
        var calendar = Commuter(random, monday);
        var (volts, phases, breaker) = Pick(random, (240, 1, 20), (240, 1, 40), (230, 1, 40), (230, 3, 20));
        return new ChargingCase
        {
            Start = start,
            End = Horizon.End(start, days, calendar),
            GridStep = Duration.FromMinutes(15),
            Vehicle = new Vehicle
            {
                UsableEnergy = Energy.FromKilowattHours(40 + (40 * random.NextDouble())),
                OnBoardCharger = Power.FromKilowatts(Pick(random, 7.2, 11)),
                Consumption = new Consumption { ReferenceKwhPerKm = 0.15 + (0.06 * random.NextDouble()) },
            },
            Supply = new Supply { VoltageV = volts, Phases = phases, BreakerA = breaker },
            PluggedInAt = StateOfCharge.FromFraction(0.2 + (0.6 * random.NextDouble())),
            Calendar = calendar,
            Prices = ThreePeriods(random, monday),
            Temperatures = Weather(random, start),
            DefaultTarget = random.Next(3) == 0 ? StateOfCharge.FromFraction(0.8) : null,
        };
    }

    private static DrivingCalendar Commuter(Random random, LocalDate monday)
    {
        var trips = new List<Trip>();
        for (var day = 1; day < KnownDays; day++)
        {
            var works = day % 7 < 5;
            if (works || random.Next(2) == 0)
            {
                var leaves = At(monday.PlusDays(day), 0) + Duration.FromMinutes(works ? 420 + random.Next(60) : 540 + random.Next(300));
                var away = Duration.FromMinutes(works ? 540 + random.Next(60) : 60 + random.Next(400));
                var km = works ? 30 + (60 * random.NextDouble()) : 300 * random.NextDouble() * random.NextDouble();
                trips.Add(Trip.Plain(leaves, leaves + away, Distance.FromKilometres(km), null));
            }
        }

        return new DrivingCalendar(trips);
    }

    private static PriceSchedule ThreePeriods(Random random, LocalDate monday)
    {
        var night = Math.Round(0.08m + (0.1m * (decimal)random.NextDouble()), 3);
        var spans = Enumerable.Range(0, KnownDays * 24).Select(h => new PriceSpan(
            At(monday, h), (h % 24) switch { < 7 or 23 => night, >= 16 and < 21 => 0.35m, _ => 0.2m }, "period"));
        return new PriceSchedule([.. spans], At(monday, KnownDays * 24), "USD");
    }

    private static TemperatureForecast Weather(Random random, Instant start)
    {
        var mean = -8 + (35 * random.NextDouble());
        return new TemperatureForecast(
            start - Duration.FromHours(3),
            Duration.FromHours(1),
            [.. Enumerable.Range(0, KnownDays * 24).Select(h => mean + (5 * Math.Sin((h - 9) * Math.PI / 12)) + random.NextDouble())]);
    }

    private static Instant At(LocalDate day, int hour) => day.AtMidnight().InUtc().ToInstant() + Duration.FromHours(hour);

    private static T Pick<T>(Random random, params T[] choices) => choices[random.Next(choices.Length)];
}
