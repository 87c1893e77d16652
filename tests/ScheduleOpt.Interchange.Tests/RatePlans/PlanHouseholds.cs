using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

/// <summary>Seeded random households over a year on any plan of <c>tariffs/</c>, all invented.</summary>
internal static class PlanHouseholds
{
    private const int Year = 2026;

    public static PlanYear Of(RatePlan plan, int seed, out YearFrame frame, LastWeeks? last = null)
    {
        var random = new Random(seed);
        var zone = new HouseholdZone(plan.Zone);
        var house = plan.Metering == Metering.WholeHouse ? plan : RatePlanLibrary.Find(plan.HousePlan!)!;
        var first = new LocalDate(Year, 1, 1);
        var prices = new PriceSeries(
            zone.StartOf(first), Duration.FromHours(1), [.. Enumerable.Range(0, 8760).Select(h => (decimal?)Math.Round(0.02m + (0.001m * random.Next(80)) + (h % 24 is > 16 and < 21 ? 0.05m : 0), 3))]);
        frame = new YearFrame(new YearCase
        {
            Zone = zone,
            Year = Year,
            Vehicle = new Vehicle
            {
                UsableEnergy = Energy.FromKilowattHours(35 + (50 * random.NextDouble())),
                OnBoardCharger = Power.FromKilowatts(11.5),
                OrdinaryLimit = StateOfCharge.FromFraction(0.7 + (0.2 * random.NextDouble())),
                Consumption = new Consumption { ReferenceKwhPerKm = 0.13 + (0.07 * random.NextDouble()) },
            },
            SetUps = [new SetUp("home", new Supply { VoltageV = random.Next(4) == 0 && last is null ? 120 : 240, BreakerA = 15 + (5 * random.Next(8)) })],
            RatePlans = house == plan ? [plan] : [house, plan],
            RatePlanInputs = new[] { plan, house }.DistinctBy(p => p.Id).ToDictionary(
                p => p.Id, p => new BillInput { Prices = p.PriceSeriesNames.ToDictionary(n => n, _ => prices) }),
            Behaviours = last is not null
                ? [new LeastCostKnownAhead()]
                : [new OnArrival(), new FixedStart(new LocalTime(22, 0), zone), new ByDeparture(), new LeastCostKnownAhead(), new LeastCostByNight(new ForecastError { Seed = seed })],
            Calendar = last is null ? Calendar(random, zone, first) : last.Calendar(random, zone, first),
            Weather = new WeatherYear(
                Enumerable.Range(0, WeatherYear.Hours).Select(h => 8 - (13 * Math.Cos(((h / 24.0) - 20) * 2 * Math.PI / 365)) - (4 * Math.Cos((h - 3) * Math.PI / 12)) + (3 * Math.Sin((h / 61.0) + seed))),
                "invented",
                isTypical: true),
            HouseLoad = last?.House(random) ?? HouseLoad.Hourly(Enumerable.Range(0, WeatherYear.Hours).Select(h => 0.3 + (0.3 * random.NextDouble()) + Math.Exp(-Math.Pow((h % 24) - 18.5, 2) / 6))),
            AwayPricePerKwh = 0.45m,
            GridMinutes = 60,
        });
        return house == plan ? PlanYear.Of(frame, plan) : PlanYear.OfCarMeter(frame, plan, PlanYear.Of(frame, house));
    }

    private static DrivingCalendar Calendar(Random random, HouseholdZone zone, LocalDate first)
    {
        var trips = new List<Trip>();
        var (days, kilometres) = (3 + random.Next(3), 20 + (80 * random.NextDouble()));
        for (var day = first.PlusDays(1); day < first.PlusDays(363); day = day.PlusDays(1))
        {
            if ((int)day.DayOfWeek <= days || random.Next(3) == 0)
            {
                trips.Add(Trip.Plain(
                    zone.Departure(day + new LocalTime(6 + random.Next(3), random.Next(60))).Instant,
                    zone.Return(day + new LocalTime(15 + random.Next(5), random.Next(60))).Instant,
                    Distance.FromKilometres(random.Next(20) == 0 ? 250 : kilometres)));
            }
        }

        return new DrivingCalendar(trips);
    }
}
