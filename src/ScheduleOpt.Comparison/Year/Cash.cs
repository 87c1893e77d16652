namespace ScheduleOpt.Comparison.Year;

/// <summary>Amounts of money that are not on a bill.</summary>
internal static class Cash
{
    /// <summary>Energy times price, rounded once to a hundredth of the currency.</summary>
    public static decimal Of(double kwh, decimal pricePerKwh) => Rounded((decimal)Math.Round(kwh, 6) * pricePerKwh);

    public static decimal Rounded(decimal amount) => Math.Round(amount, 2, MidpointRounding.AwayFromZero);
}
