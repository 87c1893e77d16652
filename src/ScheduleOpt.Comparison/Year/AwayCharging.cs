using ScheduleOpt.Comparison.SetUps;

namespace ScheduleOpt.Comparison.Year;

/// <summary>Energy that was not charged at home: for trip shortfall, chosen at stops, or everything.</summary>
/// <param name="PublicKwh">Bought at public charging, at the public meter: energy into the battery over <see cref="PublicEfficiency"/>.
/// [kWh]</param>
/// <param name="PublicCost">What it cost at the stated price, rounded to a hundredth. [currency]</param>
/// <param name="StopKwh">Charged at stops of trips, at the stop's meter. [kWh]</param>
/// <param name="StopStoredKwh">What of it reached the battery. [kWh]</param>
/// <param name="StopCost">What it cost at the stops' own prices, rounded to a hundredth. [currency]</param>
public sealed record AwayCharging(double PublicKwh, decimal PublicCost, double StopKwh, double StopStoredKwh, decimal StopCost)
{
    /// <summary>The share of publicly metered energy that reaches the battery: 0.92.</summary>
    /// <remarks>Direct current is metered after conversion; published values: 0.92 to 0.95. From memory, the cautious end.</remarks>
    public const double PublicEfficiency = 0.92;

    /// <summary>All that was charged away. [kWh at the meters]</summary>
    public double Kwh => PublicKwh + StopKwh;

    /// <summary>All that it cost. [currency]</summary>
    public decimal Cost => PublicCost + StopCost;

    /// <summary>The sessions of public charging alone; none where it is priced per kWh alone, or where the car is charged at home.</summary>
    public PublicYear? Sessions { get; init; }

    /// <summary>Everything bought at public charging.</summary>
    internal static AwayCharging Alone(YearCase question, double batteryKwh)
    {
        var (kwh, cost) = Buy(batteryKwh, question.AwayPricePerKwh);
        return question.Public?.Year(question.Vehicle, kwh) is { } sessions
            ? new(kwh, sessions.Cost, 0, 0, 0) { Sessions = sessions }
            : new(kwh, cost, 0, 0, 0);
    }

    /// <summary>Buys energy into the battery at public charging.</summary>
    internal static (double Kwh, decimal Cost) Buy(double batteryKwh, decimal pricePerKwh)
    {
        var metered = batteryKwh / PublicEfficiency;
        return (metered, Cash.Of(metered, pricePerKwh));
    }
}
