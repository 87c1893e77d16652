namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>What a household does not know when it plans a night, as a model with stated figures. Seeded: equal models give equal forecasts.</summary>
/// <remarks>
/// Temperatures: the true ones plus an error for each day ahead, normal, of the standard deviation <see cref="SigmaK"/>, one draw a night and day ahead.
/// Trips: known ahead, their need planned at the year's confidence and the forecast temperature. Hourly prices: known to the end of the next day by the
/// household's clock, as day-ahead markets publish them; beyond it the mean of the same hour of the last <see cref="PriceDays"/> days. Prices by period and
/// block are published and known. House load: known as far as it tells the price of a block; for a charge for power the mean of the same time of the last
/// <see cref="HouseDays"/> days. The figures are common practice, no source.
/// </remarks>
public sealed record ForecastError
{
    /// <summary>Seed of the draws. Default 1.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Standard deviation of the temperature error on the day of planning; zero or more. Default 1.5. [K]</summary>
    public double FirstDayK { get; init; } = 1.5;

    /// <summary>How much it grows with each day ahead; zero or more. Default 0.5. [K/d]</summary>
    public double GrowthKPerDay { get; init; } = 0.5;

    /// <summary>What every forecast temperature is off by; zero for an unbiased forecast. [K]</summary>
    public double BiasK { get; init; }

    /// <summary>What a trip's planned energy is multiplied by; above one, the household plans for more than it drives. Above zero. Default 1.05, against colder days than forecast (our choice, no source).</summary>
    public double TripEnergyFactor { get; init; } = 1.05;

    /// <summary>Days behind an expected hourly price, 1 to 28. Default 7. [d]</summary>
    public int PriceDays { get; init; } = 7;

    /// <summary>Days behind an expected house load, 1 to 28. Default 7. [d]</summary>
    public int HouseDays { get; init; } = 7;

    /// <summary>Nothing but prices beyond the next day and the house load is unknown.</summary>
    public static ForecastError None { get; } = new() { FirstDayK = 0, GrowthKPerDay = 0, TripEnergyFactor = 1 };

    /// <summary>Standard deviation of the temperature error so many days ahead. [K]</summary>
    /// <param name="daysAhead">Zero for the day of planning. [d]</param>
    public double SigmaK(int daysAhead) => FirstDayK + (GrowthKPerDay * daysAhead);

    /// <summary>The model in one sentence, for the reader of the figures.</summary>
    public string Words => FormattableString.Invariant(
        $"temperature error {FirstDayK:0.0} K on the day, {GrowthKPerDay:0.0} K more a day ahead; hourly prices known to the end of the next day, then the mean of {PriceDays} days (common practice, no source)");

    /// <summary>Whether every figure is in its range.</summary>
    internal bool IsInRange =>
        FirstDayK is >= 0 and <= 20 && GrowthKPerDay is >= 0 and <= 10 && BiasK is >= -60 and <= 60
        && TripEnergyFactor is > 0 and <= 10 && PriceDays is >= 1 and <= 28 && HouseDays is >= 1 and <= 28;
}
