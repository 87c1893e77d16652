using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Tests.Year;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Comparison.Tests.Households;

/// <summary>Seeded random households over a year, all invented: cars, supplies, commutes and journeys, winters, houses, and rate plans of every convex kind.</summary>
internal static class YearHouseholds
{
    public const int Kinds = 7;

    private static readonly LocalDate First = new(2026, 1, 1);

    /// <summary>How many are run: twenty, or what <c>SCHEDULEOPT_YEAR_HOUSEHOLDS</c> says.</summary>
    public static int Count { get; } =
        int.TryParse(Environment.GetEnvironmentVariable("SCHEDULEOPT_YEAR_HOUSEHOLDS"), out var count) && count > 0 ? count : 20;

    public static YearCase Of(int seed, ForecastError? errors = null, int gridMinutes = 15)
    {
        var random = new Random(seed);
        var plan = Plan(random, seed % Kinds, out var input);
        return new YearCase
        {
            Zone = Sample.Chicago,
            Year = First.Year,
            Vehicle = Sample.Car with
            {
                UsableEnergy = Energy.FromKilowattHours(35 + (50 * random.NextDouble())),
                OrdinaryLimit = StateOfCharge.FromFraction(0.7 + (0.3 * random.NextDouble())),
                Consumption = new Consumption
                {
                    ReferenceKwhPerKm = 0.13 + (0.07 * random.NextDouble()), TemperatureSensitivity = 0.6 + random.NextDouble(),
                },
            },
            SetUps = [new("home", Pick(random, Sample.Outlet, Sample.Receptacle, Sample.Hardwired, Sample.Receptacle))],
            RatePlans = [plan],
            RatePlanInputs = new Dictionary<string, BillInput> { [plan.Id] = input },
            Behaviours =
            [
                new OnArrival(), new FixedStart(new LocalTime(22 + random.Next(2), 0), Sample.Chicago), new ByDeparture(), new LeastCostKnownAhead(),
                new LeastCostByNight(errors ?? new ForecastError { Seed = seed }),
            ],
            Calendar = Calendar(random),
            Weather = Weather(random),
            HouseLoad = House(random),
            AwayPricePerKwh = 0.35m + (0.01m * random.Next(30)),
            GridMinutes = gridMinutes,
        };
    }

    private static RatePlan Plan(Random random, int kind, out BillInput input)
    {
        input = BillInput.None;
        decimal Cents(int from, int until) => (decimal)random.Next(from * 10, until * 10) / 1000;
        var timeOfUse = SampleYear.TimeOfUse(Cents(4, 10), Cents(11, 18), Cents(22, 45));
        switch (kind)
        {
            case 0:
                return SampleYear.Flat(Cents(8, 30));
            case 1:
                return timeOfUse;
            case 2:
                return SampleYear.Flat() with
                {
                    EnergyCharges = [new EnergyCharge { Name = "Energy", Blocks = [new(400 + random.Next(600), Cents(8, 12)), new(1400, Cents(13, 17)), new(null, Cents(18, 24))] }],
                };
            case 3:
                return timeOfUse with { DemandCharges = [Demand("Demand", 4 + random.Next(10), random.Next(2) == 0 ? 15 : 60)] };
            case 4:
                return timeOfUse with
                {
                    DemandCharges = [Demand("Peak demand", 8 + random.Next(8), 30) with { Periods = ["peak"] }, Demand("Facilities demand", 1 + random.Next(3), 15)],
                };
            case 5:
                return timeOfUse with { MinimumBill = new MinimumBill(60 + random.Next(120), ChargeUnit.Month, [BillPart.EnergyCharge, BillPart.CustomerCharge]) };
            default:
                input = new BillInput { Prices = new Dictionary<string, PriceSeries> { ["market"] = Market(random) } };
                return SampleYear.Flat() with
                {
                    EnergyCharges = [new EnergyCharge { Name = "Market", Blocks = [new(null, 0)], Hourly = new HourlyPrice("market", MissingPrice.Refuse) { Adder = 0.05m } }],
                };
        }
    }

    private static DemandCharge Demand(string name, decimal price, int minutes) =>
        new() { Name = name, Blocks = [new(null, price)], AveragingMinutes = minutes };

    private static PriceSeries Market(Random random)
    {
        var level = 1.0;
        var prices = new decimal?[8760];
        for (var h = 0; h < prices.Length; h++)
        {
            level = h % 24 == 0 ? Math.Clamp((0.6 * level) + 0.4 + (0.25 * Normal(random)), 0.4, 2.5) : level;
            var shape = 0.05 - (0.025 * Math.Cos((h - 16) * Math.PI / 12)) + (h % 24 is >= 17 and < 21 ? 0.05 : 0);
            prices[h] = (decimal)Math.Round(Math.Max(0.001, level * shape * (1 + (0.15 * Normal(random)))), 5);
        }

        return new PriceSeries(Sample.Chicago.StartOf(First), Duration.FromHours(1), prices);
    }

    private static DrivingCalendar Calendar(Random random)
    {
        var (workdays, oneWay) = (3 + random.Next(3), 8 + (50 * random.NextDouble()));
        var journeys = random.Next(20);
        var (leaves, back) = ((6 * 60) + random.Next(150), (16 * 60) + random.Next(180));
        var trips = new List<Trip>();
        for (var day = First.PlusDays(1); day < First.PlusYears(1).PlusDays(-2); day = day.PlusDays(1))
        {
            var weekday = (int)day.DayOfWeek;
            if (weekday <= workdays && random.Next(25) > 0)
            {
                Add(day, leaves + random.Next(20), back + random.Next(60), 2 * oneWay);
                if (random.Next(6) == 0)
                {
                    Add(day, (20 * 60) + random.Next(30), (21 * 60) + 30 + random.Next(60), 5 + (30 * random.NextDouble()));
                }
            }
            else if (weekday > 5 && random.Next(3) > 0)
            {
                var far = random.Next(100) < journeys;
                Add(day, (8 * 60) + random.Next(180), (far ? 19 : 14) * 60 + random.Next(120), far ? 120 + (200 * random.NextDouble()) : 10 + (60 * random.NextDouble()));
            }
        }

        return new DrivingCalendar(trips);

        void Add(LocalDate day, int from, int until, double kilometres) => trips.Add(Trip.Plain(
            Sample.Chicago.Departure(day + LocalTime.FromMinutesSinceMidnight(from)).Instant,
            Sample.Chicago.Return(day + LocalTime.FromMinutesSinceMidnight(until)).Instant,
            Distance.FromKilometres(kilometres)));
    }

    private static WeatherYear Weather(Random random)
    {
        var (mean, swing, daily) = (2 + (14 * random.NextDouble()), 6 + (10 * random.NextDouble()), 2 + (4 * random.NextDouble()));
        var anomaly = 0.0;
        var celsius = new double[WeatherYear.Hours];
        for (var h = 0; h < celsius.Length; h++)
        {
            // Weather keeps for days: common practice, no source.
            anomaly = h % 24 == 0 ? (0.8 * anomaly) + (2.5 * Normal(random)) : anomaly;
            celsius[h] = mean - (swing * Math.Cos(((h / 24.0) - 20) * 2 * Math.PI / 365)) - (daily * Math.Cos((h - 3) * Math.PI / 12)) + anomaly;
        }

        return new WeatherYear(celsius, "invented", isTypical: false);
    }

    private static HouseLoad House(Random random)
    {
        var (level, evening) = (0.3 + (0.6 * random.NextDouble()), 0.3 + random.NextDouble());
        return HouseLoad.Hourly(Enumerable.Range(0, WeatherYear.Hours).Select(h =>
            Math.Max(0.05, level + (evening * Math.Exp(-Math.Pow((h % 24) - 18.5, 2) / 6)) + (0.15 * Normal(random)))));
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static T Pick<T>(Random random, params T[] values) => values[random.Next(values.Length)];
}
