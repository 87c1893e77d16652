using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Comparison.Tests.Year;

/// <summary>An invented household's year, and invented rate plans.</summary>
internal static class SampleYear
{
    private static readonly IsoDayOfWeek[] Workdays =
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday];

    public static IReadOnlyList<Behaviour> AllBehaviours { get; } =
        [new OnArrival(), new FixedStart(new LocalTime(23, 0), Sample.Chicago), new ByDeparture(), new LeastCostKnownAhead()];

    /// <summary>A year with a winter, and a week of -24 to -14 degC that begins on 12 January.</summary>
    public static WeatherYear Cold { get; } = new(
        Enumerable.Range(0, WeatherYear.Hours).Select(h =>
        {
            var (day, hour) = (h / 24, h % 24);
            var daily = -5 * Math.Cos((hour - 3) * Math.PI / 12);
            return (day is >= 11 and < 18 ? -19 : 8 - (16 * Math.Cos((day - 20) * 2 * Math.PI / 365))) + daily;
        }),
        "invented",
        isTypical: true);

    public static WeatherYear Constant(double celsius) =>
        new(Enumerable.Repeat(celsius, WeatherYear.Hours), "invented", isTypical: false);

    /// <summary>40 miles on workdays, an errand on Saturdays, and 180 miles there and back on every sixth Sunday.</summary>
    public static DrivingCalendar Commuting(int year, HouseholdZone zone)
    {
        var trips = new List<Trip>();
        for (var day = new LocalDate(year, 1, 1); day.Year == year; day = day.PlusDays(1))
        {
            if (Workdays.Contains(day.DayOfWeek))
            {
                trips.Add(Trip(zone, day + new LocalTime(7, 40), day + new LocalTime(17, 30), 40));
            }
            else if (day.DayOfWeek == IsoDayOfWeek.Saturday)
            {
                trips.Add(Trip(zone, day + new LocalTime(10, 0), day + new LocalTime(13, 5), 25));
            }
            else if (day.DayOfYear % 42 < 7)
            {
                trips.Add(Trip(zone, day + new LocalTime(8, 0), day + new LocalTime(21, 0), 180));
            }
        }

        return new DrivingCalendar(trips);
    }

    public static Trip Trip(HouseholdZone zone, LocalDateTime departure, LocalDateTime @return, double miles) => Core.Driving.Trip.Plain(
        zone.Departure(departure).Instant, zone.Return(@return).Instant, Distance.FromMiles(miles));

    /// <summary>A year for a pencil: 20 degC throughout, 100 miles on each of 52 Saturdays from 09:00 to 17:00, one price of 0.10 and 10.00 a month,
    /// no house load. The set-ups and behaviours are the test's.</summary>
    public static YearCase HandWorked => Case(Flat()) with
    {
        Weather = Constant(20),
        HouseLoad = null,
        Calendar = new DrivingCalendar(Enumerable.Range(0, 52).Select(week =>
        {
            var day = new LocalDate(2026, 1, 3).PlusWeeks(week);
            return Trip(Sample.Chicago, day + new LocalTime(9, 0), day + new LocalTime(17, 0), 100);
        })),
    };

    public static YearCase Case(params IReadOnlyList<RatePlan> plans) => new()
    {
        Zone = Sample.Chicago,
        Year = 2026,
        Vehicle = Sample.Car,
        SetUps = [new("outlet", Sample.Outlet), new("receptacle", Sample.Receptacle), new("hardwired", Sample.Hardwired)],
        RatePlans = plans,
        Behaviours = AllBehaviours,
        Calendar = Commuting(2026, Sample.Chicago),
        Weather = Cold,
        HouseLoad = HouseLoad.Hourly(Enumerable.Range(0, WeatherYear.Hours).Select(h => 0.5 + (0.3 * (h % 24 / 23.0)))),
        AwayPricePerKwh = 0.48m,
    };

    /// <summary>One price, 10.00 a month, nothing rounded.</summary>
    public static RatePlan Flat(decimal price = 0.10m, string id = "flat") => Plan(
        id, [], [Charge("all hours", "other", new Block(null, price))]);

    /// <summary>Cheap from 23:00 to 07:00, dear on workdays from 14:00 to 19:00.</summary>
    public static RatePlan TimeOfUse(decimal night = 0.07m, decimal other = 0.13m, decimal peak = 0.29m, string id = "tou") => Plan(
        id,
        [new("night", [], [], 23 * 60, 7 * 60), new("peak", [], ["workday"], 14 * 60, 19 * 60)],
        [Charge("night", "night", new Block(null, night)),
            Charge("peak", "peak", new Block(null, peak)),
            Charge("other", "other", new Block(null, other))]);

    /// <summary>A second block from 600 kWh a month.</summary>
    public static RatePlan Blocks(string id = "blocks") => Plan(
        id, [], [Charge("all hours", "other", new Block(600, 0.09m), new Block(null, 0.15m))]);

    private static EnergyCharge Charge(string name, string period, params Block[] blocks) =>
        new() { Name = name, Periods = [period], Blocks = blocks };

    private static RatePlan Plan(string id, IReadOnlyList<PeriodWindow> windows, IReadOnlyList<EnergyCharge> charges)
    {
        var plan = new RatePlan
        {
            Id = id,
            Name = id,
            Utility = "Invented Light",
            Source = "invented",
            Currency = "USD",
            EffectiveFrom = new LocalDate(2020, 1, 1),
            Metering = Metering.WholeHouse,
            Calendar = new RateCalendar(
                Sample.Chicago.Zone,
                [new("year", [new(new AnnualDate(1, 1), new AnnualDate(12, 31))])],
                [new("workday", Workdays), new("weekend", [IsoDayOfWeek.Saturday, IsoDayOfWeek.Sunday])],
                [],
                ["night", "peak", "other"],
                windows,
                "other"),
            CustomerCharges = [new("Customer charge", 10, ChargeUnit.Month)],
            EnergyCharges = charges,
            Rounding = Rounding.None,
            Proration = new Proration(ProrationRule.DaysInMonth),
        };
        return plan;
    }
}
