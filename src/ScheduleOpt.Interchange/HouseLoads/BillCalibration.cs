namespace ScheduleOpt.Interchange.HouseLoads;

/// <summary>A modelled year held against its monthly bills.</summary>
/// <remarks>
/// ASHRAE Guideline 14-2014, monthly criteria: normalised mean bias error within 5 % and coefficient of variation of the root mean square error within 15 %,
/// with n - p in both denominators and one adjusted parameter, p = 1. The measurement and verification protocol IPMVP uses the same two statistics.
/// A bias above zero: the bills hold more than the model.
/// </remarks>
/// <param name="BilledKwh">What was billed, bill by bill: twelve, or thirteen where a meter is read every four weeks. [kWh]</param>
/// <param name="ModelledKwh">What the model has on the same days. [kWh]</param>
public sealed record BillCalibration(IReadOnlyList<double> BilledKwh, IReadOnlyList<double> ModelledKwh)
{
    /// <summary>Months of a year.</summary>
    public const int Months = 12;

    /// <summary>The most bills of a year: one every four weeks.</summary>
    public const int MostBills = 13;

    /// <summary>The most that the mean bias may be, either way. [fraction]</summary>
    public const double MostBias = 0.05;

    /// <summary>The most that the scatter may be. [fraction]</summary>
    public const double MostScatter = 0.15;

    /// <summary>The limits and where they come from.</summary>
    public const string Basis = "ASHRAE Guideline 14-2014, monthly: NMBE within 5 %, CV(RMSE) within 15 %, n - 1 in the denominators";

    private const int AdjustedParameters = 1;

    /// <summary>Normalised mean bias error, NMBE: the sum of billed less modelled over (n - p) times the billed mean. [fraction]</summary>
    public double Bias => Differences.Sum() / ((BilledKwh.Count - AdjustedParameters) * Mean);

    /// <summary>Coefficient of variation of the root mean square error, CV(RMSE). [fraction]</summary>
    public double Scatter => Math.Sqrt(Differences.Sum(d => d * d) / (BilledKwh.Count - AdjustedParameters)) / Mean;

    /// <summary>Whether both lie within their limits.</summary>
    public bool IsCalibrated => Math.Abs(Bias) <= MostBias && Scatter <= MostScatter;

    private double Mean => BilledKwh.Average();

    private IEnumerable<double> Differences => BilledKwh.Zip(ModelledKwh, (billed, modelled) => billed - modelled);
}
