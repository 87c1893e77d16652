namespace ScheduleOpt.Comparison.BreakEvens;

/// <summary>What is varied to find where an answer changes.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Low">Where the search begins.</param>
/// <param name="High">Where it ends; above the low end.</param>
/// <param name="Tolerance">How exactly a break-even is wanted; above zero.</param>
public sealed record BreakEvenAxis(string Name, string Unit, double Low, double High, double Tolerance)
{
    /// <summary>Distance driven in a year, the household's trips stretched or shrunk alike. [km a year]</summary>
    /// <remarks>Range: our choice, up to about twice what heavy drivers cover.</remarks>
    public static BreakEvenAxis DistancePerYear { get; } = new("Distance per year", "km", 0, 80_000, 10);

    /// <summary>Share of the charging at home that is off-peak. [0 to 1]</summary>
    public static BreakEvenAxis OffPeakShare { get; } = new("Share charged off-peak", "share", 0, 1, 0.001);

    /// <summary>First cost of the second alternative. [currency]</summary>
    /// <remarks>Range: our choice.</remarks>
    public static BreakEvenAxis InstallCost { get; } = new("Install cost", "currency", 0, 20_000, 0.5);

    /// <summary>Price on-peak less price off-peak. [currency/kWh]</summary>
    /// <remarks>Range: our choice.</remarks>
    public static BreakEvenAxis PriceGap { get; } = new("Price gap", "currency/kWh", 0, 1, 0.0001);
}
