namespace ScheduleOpt.Comparison.Year;

/// <summary>What makes a year that ends with another stored energy than it began with comparable.</summary>
/// <remarks>The difference is priced at the cell's mean price per kWh stored at home (the car's share of the bill over the energy stored);
/// where nothing was stored at home, at the public price.</remarks>
/// <param name="MissingKwh">Energy at the start less energy at the end, battery side; negative where the year ends fuller. [kWh]</param>
/// <param name="PricePerStoredKwh">The mean price used; zero where nothing was to be corrected. [currency/kWh, battery side]</param>
/// <param name="Cost">Missing energy times price, rounded to a hundredth. [currency]</param>
public sealed record EndCorrection(double MissingKwh, decimal PricePerStoredKwh, decimal Cost)
{
    // Below this a difference is worth no cent; below the second it is arithmetic, not energy.
    private const double LeastKwh = 0.001;
    private const double ArithmeticKwh = 1e-9;

    /// <summary>Whether the year did not end as it began.</summary>
    public bool Applies => Math.Abs(MissingKwh) >= LeastKwh;

    /// <summary>None: public charging ends as it began.</summary>
    public static EndCorrection None { get; } = new(0, 0, 0);

    internal static EndCorrection Of(double missingKwh, decimal carShare, double storedAtHomeKwh, decimal publicPricePerKwh)
    {
        if (Math.Abs(missingKwh) < LeastKwh)
        {
            return new EndCorrection(Math.Abs(missingKwh) < ArithmeticKwh ? 0 : missingKwh, 0, 0);
        }

        var price = storedAtHomeKwh >= LeastKwh
            ? carShare / (decimal)storedAtHomeKwh
            : publicPricePerKwh / (decimal)AwayCharging.PublicEfficiency;
        return new EndCorrection(missingKwh, price, Cash.Of(missingKwh, price));
    }
}
