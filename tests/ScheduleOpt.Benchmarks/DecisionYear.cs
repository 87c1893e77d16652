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
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Benchmarks;

/// <summary>An invented household's year for the benchmark of decisions, of any number of rate plans and set-ups.</summary>
internal static class DecisionYear
{
    private static readonly LocalDate First = new(2026, 1, 1);
    private static readonly string[] PlainIds = ["example-power-car-owner", "example-power-day-and-night", "example-power-standard", "example-power-three-seasons"];
    private static readonly double[] Breakers = [20, 30, 40, 50, 60];

    private static HouseholdZone Zone { get; } = new(RatePlanLibrary.Find(PlainIds[0])!.Zone);

    public static IReadOnlyList<Behaviour> Behaviours { get; } =
        [new OnArrival(), new FixedStart(new LocalTime(23, 0), Zone), new ByDeparture(), new LeastCostKnownAhead(), new LeastCostByNight()];

    /// <summary>The sample plans whose prices per kWh say all, at other prices each.</summary>
    public static RatePlan[] Plain(int count) => [.. Enumerable.Range(0, count).Select(i => Scaled(RatePlanLibrary.Find(PlainIds[i % PlainIds.Length])!, i))];

    /// <summary>Plans with a charge for power, or with rising blocks.</summary>
    public static RatePlan[] Coupled(int count) => [.. Enumerable.Range(0, count).Select(i => i % 2 == 0
        ? Scaled(RatePlanLibrary.Find(PlainIds[0])!, 100 + i) with
        {
            DemandCharges = [new DemandCharge { Name = "Demand", Blocks = [new(null, 4 + i)], AveragingMinutes = i % 4 == 0 ? 15 : 60 }],
        }
        : Scaled(RatePlanLibrary.Find("sample-electric-small-home")!, 100 + i))];

    public static YearCase Of(IReadOnlyList<RatePlan> plans, int setUps, IReadOnlyList<Behaviour> behaviours) => new()
    {
        Zone = Zone,
        Year = First.Year,
        Vehicle = new Vehicle
        {
            UsableEnergy = Energy.FromKilowattHours(60),
            OnBoardCharger = Power.FromKilowatts(11.5),
            Consumption = new Consumption { ReferenceKwhPerKm = 0.16 },
        },
        SetUps =
        [
            .. new[] { new SetUp("outlet", new Supply { VoltageV = 120, BreakerA = 15 }) }
                .Concat(Breakers.Select(a => new SetUp(FormattableString.Invariant($"240 V, {a} A"), new Supply { VoltageV = 240, BreakerA = a }))).Take(setUps),
        ],
        RatePlans = plans,
        Behaviours = behaviours,
        Calendar = Calendar(),
        Weather = new WeatherYear(
            Enumerable.Range(0, WeatherYear.Hours).Select(h =>
                Math.Round(9 - (14 * Math.Cos(((h / 24.0) - 20) * 2 * Math.PI / 365)) - (5 * Math.Cos((h - 3) * Math.PI / 12)) + (3 * Math.Sin(h / 61.0)), 1)),
            "invented",
            isTypical: true),
        HouseLoad = HouseLoad.Hourly(Enumerable.Range(0, WeatherYear.Hours).Select(h => 0.6 + (0.8 * Math.Exp(-Math.Pow((h % 24) - 18.5, 2) / 6)))),
        AwayPricePerKwh = 0.45m,
    };

    private static RatePlan Scaled(RatePlan plan, int number)
    {
        var factor = 1 + (0.013m * number);
        return plan with
        {
            Id = FormattableString.Invariant($"{plan.Id}-{number}"),
            Currency = "USD",
            EnergyCharges =
            [
                .. plan.EnergyCharges.Select(c => c with
                {
                    Blocks = [.. c.Blocks.Select(b => b with { PricePerKwh = b.PricePerKwh * factor })],
                }),
            ],
        };
    }

    private static DrivingCalendar Calendar()
    {
        var trips = new List<Trip>();
        for (var day = First; day.Year == First.Year; day = day.PlusDays(1))
        {
            var (leaves, back, miles) = day.DayOfWeek switch
            {
                IsoDayOfWeek.Saturday => (new LocalTime(10, 0), new LocalTime(13, 5), 25),
                IsoDayOfWeek.Sunday => day.DayOfYear % 42 < 7 ? (new LocalTime(8, 0), new LocalTime(21, 0), 180) : (LocalTime.Midnight, LocalTime.Midnight, 0),
                _ => (new LocalTime(7, 40), new LocalTime(17, 30), 40),
            };
            if (miles > 0)
            {
                trips.Add(Trip.Plain(Zone.Departure(day + leaves).Instant, Zone.Return(day + back).Instant, Distance.FromMiles(miles)));
            }
        }

        return new DrivingCalendar(trips);
    }
}
