using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>What is to be compared: set-ups x rate plans x behaviours over one calendar year.</summary>
public sealed record YearCase
{
    /// <summary>The household's zone; the year begins and ends at its midnights.</summary>
    public required HouseholdZone Zone { get; init; }

    /// <summary>The calendar year. Weekdays and clock changes follow from it.</summary>
    public required int Year { get; init; }

    /// <summary>The car. The year begins at its ordinary limit.</summary>
    public required Vehicle Vehicle { get; init; }

    /// <summary>The set-ups, at least one, names unique.</summary>
    public required IReadOnlyList<SetUp> SetUps { get; init; }

    /// <summary>The rate plans, at least one, all in one currency.</summary>
    public required IReadOnlyList<RatePlan> RatePlans { get; init; }

    /// <summary>What is given beside a rate plan, by its identifier: choices, size of the service, price series over the whole year, events. Plans
    /// without an entry have their defaults.</summary>
    public IReadOnlyDictionary<string, BillInput> RatePlanInputs { get; init; } = new Dictionary<string, BillInput>();

    /// <summary>The behaviours, at least one, each at most once.</summary>
    public required IReadOnlyList<Behaviour> Behaviours { get; init; }

    /// <summary>The trips. Those that are not wholly inside the year are left out with a warning.</summary>
    public required DrivingCalendar Calendar { get; init; }

    /// <summary>The temperatures.</summary>
    public required WeatherYear Weather { get; init; }

    /// <summary>Further weather years, at most four; the cells are those of <see cref="Weather"/>, and
    /// <see cref="Winters.WinterComparison"/> runs all of them.</summary>
    public IReadOnlyList<WeatherYear> FurtherWeather { get; init; } = [];

    /// <summary>Identifier of the whole-house rate plan on which the house stays where the car has a meter of its own and its plan names none: today's. None:
    /// the one that is cheapest for the house without the car.</summary>
    public string? HousePlan { get; init; }

    /// <summary>What the house uses without the car; none: bills without a house, with a warning.</summary>
    public HouseLoad? HouseLoad { get; init; }

    /// <summary>Price of public charging, per kWh at the public meter; zero or more. [currency/kWh]</summary>
    public required decimal AwayPricePerKwh { get; init; }

    /// <summary>The public charging place of set-ups without charging at home, in sessions; none: all of it at <see cref="AwayPricePerKwh"/>.</summary>
    public PublicPlace? Public { get; init; }

    /// <summary>The grid step and metering interval: 5, 15, 30 or 60 min. Default 15. [min]</summary>
    public int GridMinutes { get; init; } = 15;

    /// <summary>The confidence at which a trip's need is planned, in [0.5, 0.999]. Default 0.9.</summary>
    public double TripConfidence { get; init; } = 0.9;

    /// <summary>Which shortfall least cost spares first.</summary>
    public ShortfallOrder ShortfallOrder { get; init; } = ShortfallOrder.InTimeOrder;
}
