using NodaTime;
using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Scheduling;

/// <summary>One car's charging question, cut into intervals: everything the solver may know.</summary>
/// <remarks>
/// n intervals lie between n + 1 boundaries. Arrays of intervals have n values, arrays of boundaries n + 1. Wall side: <see cref="WallKw"/>;
/// battery side: everything else in kWh and <see cref="NetKw"/>. The mathematics is in the README beside this file.
/// </remarks>
public sealed record ChargingProblem
{
    /// <summary>Boundaries of the intervals, in order.</summary>
    public required Instant[] Boundaries { get; init; }

    /// <summary>Length of each interval. [h]</summary>
    public required double[] Hours { get; init; }

    /// <summary>Where the car is in each interval.</summary>
    public required Place[] Place { get; init; }

    /// <summary>Price of energy at the meter (at home: the rate plan's; at a stop: the stop's). [currency/kWh]</summary>
    public required double[] Price { get; init; }

    /// <summary>Full charging current at home; 0 where the car can't charge there, and away. [A, per phase]</summary>
    public required double[] MostA { get; init; }

    /// <summary>Full charging power; 0 where the car can't charge. [kW, wall] At home that of <see cref="MostA"/>.</summary>
    public required double[] WallKw { get; init; }

    /// <summary>The rate r at which the battery gains energy at full charging power; 0 where charging is useless. [kW]</summary>
    public required double[] NetKw { get; init; }

    /// <summary>Outdoor temperature of each interval. [degC]</summary>
    public required double[] TemperatureC { get; init; }

    /// <summary>Energy that driving takes in each interval, at the mean. [kWh]</summary>
    public required double[] DriveKwh { get; init; }

    /// <summary>Lower bound of the stored energy at each boundary. [kWh]</summary>
    public required double[] LowerKwh { get; init; }

    /// <summary>Upper bound of the stored energy at each boundary. [kWh]</summary>
    public required double[] UpperKwh { get; init; }

    /// <summary>Departures in order.</summary>
    public required DepartureTarget[] Departures { get; init; }

    /// <summary>Stored energy at the first boundary. [kWh]</summary>
    public required double InitialKwh { get; init; }

    /// <summary>Usable energy E. [kWh]</summary>
    public required double UsableKwh { get; init; }

    /// <summary>Energy at the ordinary limit. [kWh]</summary>
    public required double OrdinaryKwh { get; init; }

    /// <summary>Energy at the minimum state of charge. [kWh]</summary>
    public required double MinimumKwh { get; init; }

    /// <summary>What a stored kWh is worth at the last boundary, up to the ordinary limit. [currency/kWh] Zero or more.</summary>
    public double EndValuePerKwh { get; init; }

    /// <summary>Energy that the last boundary must reach, as a target whose shortfall comes after every departure's; none: free. [kWh]</summary>
    public double? FinalKwh { get; init; }

    /// <summary>Power that warming before departures takes at home, beside charging; none: no warming. [kW, wall]</summary>
    public double[]? WarmUpKw { get; init; }

    /// <summary>The ageing price on dwell, with which step 3 chooses among schedules of equal cost.</summary>
    public AgeingPrice Ageing { get; init; } = AgeingPrice.Default;

    /// <summary>The charging model's constants of the vehicle; the replay needs them for the taper and the overhead.</summary>
    public ChargingConstants Constants { get; init; } = ChargingConstants.Default;

    /// <summary>Number of intervals n.</summary>
    public int Count => Hours.Length;

    /// <summary>Energy that warming takes in an interval. [kWh, wall]</summary>
    public double WarmUpKwh(int interval) => WarmUpKw is null ? 0 : WarmUpKw[interval] * Hours[interval];

    /// <summary>What all warming costs; no schedule changes it. [currency]</summary>
    public double WarmUpCost()
    {
        var sum = 0.0;
        for (var i = 0; WarmUpKw is not null && i < Count; i++)
        {
            sum += WarmUpKwh(i) * Price[i];
        }

        return sum;
    }
}
