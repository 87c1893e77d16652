using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>What several cars, the rest of the house and the rate plan's coupled charges have in common, cut into intervals.</summary>
/// <remarks>
/// All cars share one grid. Arrays of intervals have n values. Power is an average over the interval, at the meter. The cost of a schedule is the difference to the
/// bill without charging: energy at import and export prices, plus what each term of <see cref="Terms"/> adds, plus the carbon price. The mathematics is in the
/// README of this project.
/// </remarks>
public sealed record HouseholdProblem
{
    /// <summary>Boundaries of the intervals, in order; n + 1. Every car's problem has the same.</summary>
    public required Instant[] Boundaries { get; init; }

    /// <summary>Length of each interval. [h]</summary>
    public required double[] Hours { get; init; }

    /// <summary>The cars, one at least, in the order in which equal wishes are served.</summary>
    public required IReadOnlyList<HouseholdCar> Cars { get; init; }

    /// <summary>Expected load of the rest of the house, warming before departures included. [kW] Zero or more.</summary>
    public required double[] HouseKw { get; init; }

    /// <summary>Expected solar production. [kW] Zero or more; what house and cars don't take is exported.</summary>
    public required double[] SolarKw { get; init; }

    /// <summary>Price of imported energy. [currency/kWh] May be negative.</summary>
    public required double[] ImportPrice { get; init; }

    /// <summary>Credit of exported energy. [currency/kWh] May be zero or negative, and above the import price: then the problem is not convex.</summary>
    public required double[] ExportPrice { get; init; }

    /// <summary>Price of the emissions of imported energy, beside the bill. [currency/kWh] Zero or more; none: zeros.</summary>
    public required double[] CarbonPrice { get; init; }

    /// <summary>The most that the whole house may import in any interval; none: no limit. [kW] Where the house alone passes it, cars take nothing.</summary>
    public double? ImportLimitKw { get; init; }

    /// <summary>Circuits that several cars share.</summary>
    public IReadOnlyList<SharedCircuit> Circuits { get; init; } = [];

    /// <summary>Parts of the bill that a price per kWh does not say, over whole billing periods; the grid is cut where their hours and averages begin and end.</summary>
    public IReadOnlyList<PriceTerm> Terms { get; init; } = [];

    /// <summary>What warming before departures adds to bill and carbon price; no schedule changes it, and the cost of a schedule leaves it out. [currency]</summary>
    public double WarmUpCost { get; init; }

    /// <summary>The part of <see cref="WarmUpCost"/> that is the carbon price's. [currency]</summary>
    public double WarmUpCarbonCost { get; init; }

    /// <summary>Number of intervals n.</summary>
    public int Count => Hours.Length;
}
