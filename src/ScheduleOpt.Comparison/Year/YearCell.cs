using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>One set-up on one rate plan with one behaviour over the year, whole house with and without the car.</summary>
/// <remarks>Energies in kWh, money in the comparison's currency. Bills are estimates; the utility's own is what counts.</remarks>
public sealed record YearCell
{
    /// <summary>The set-up.</summary>
    public required SetUp SetUp { get; init; }

    /// <summary>The rate plan.</summary>
    public required RatePlan RatePlan { get; init; }

    /// <summary>The behaviour; none with public charging alone.</summary>
    public required Behaviour? Behaviour { get; init; }

    /// <summary>The rate plan on which the house stays where <see cref="RatePlan"/> is for the car's own meter; none on a whole-house plan.</summary>
    public RatePlan? HousePlan { get; init; }

    /// <summary>The year's bill of house and car; with a meter for the car, the lines of both bills, each with its own customer charge. [currency]</summary>
    public required Bill BillWithCar { get; init; }

    /// <summary>The year's bill of the house alone on the same plan, or on <see cref="HousePlan"/>. [currency]</summary>
    public required Bill BillWithoutCar { get; init; }

    /// <summary>What the car adds to the bill: the difference of the two. [currency]</summary>
    public decimal CarShare => BillWithCar.Total - BillWithoutCar.Total;

    /// <summary>What was charged, stored, driven and missed. [kWh]</summary>
    public required YearEnergy Energy { get; init; }

    /// <summary>Away charging. [kWh, currency]</summary>
    public required AwayCharging Away { get; init; }

    /// <summary>Readiness over the year. [share of departures]</summary>
    public required Readiness Readiness { get; init; }

    /// <summary>Readiness in the coldest week; the week itself is <see cref="YearResult.ColdestWeek"/>. [share of departures]</summary>
    public required Readiness ColdestWeek { get; init; }

    /// <summary>Readiness in the coldest week, day by day; empty with public charging alone.</summary>
    public IReadOnlyList<DayReadiness> ColdestWeekDays { get; init; } = [];

    /// <summary>The days of the year on which the set-up left the household short, in order; their number is what an owner asks for.</summary>
    public IReadOnlyList<ShortDay> ShortDays { get; init; } = [];

    /// <summary>What makes the year end as it began. [kWh, currency]</summary>
    public required EndCorrection EndCorrection { get; init; }

    /// <summary>What the car costs in the year, cash: its share of the bill, away charging, end-state correction. [currency]</summary>
    public decimal CarCost => CarShare + Away.Cost + EndCorrection.Cost;

    /// <summary>What house and car cost in the year, cash: by this the cells are ranked. [currency]</summary>
    public decimal WholeHouseCost => BillWithCar.Total + Away.Cost + EndCorrection.Cost;

    /// <summary>A lower bound of <see cref="WholeHouseCost"/> for any charging with the same limits and shortfalls, which knows no taper. A run that charged earlier than
    /// the limits allow, to make up for the taper, may cost less: a warning says so. Bills may be rounded as they like. Only for least cost known ahead, and none where the rate plan allows none. [currency]</summary>
    public decimal? BoundCost { get; init; }

    /// <summary>Place in the ranking, from 1; equal costs share a place.</summary>
    public int Rank { get; init; }

    /// <summary>What the reader of this cell must know.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];
}
