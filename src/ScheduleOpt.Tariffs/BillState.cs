namespace ScheduleOpt.Tariffs;

/// <summary>What one bill carries to the next: handed on at the end of a billing period, the next bill continues as if the series had been one.</summary>
public sealed record BillState
{
    /// <summary>Nothing carried.</summary>
    public static BillState Empty { get; } = new();

    /// <summary>The highest power of each demand charge in past billing periods.</summary>
    public IReadOnlyList<PastPeak> Peaks { get; init; } = [];

    /// <summary>Net metering: banked energy by group (a period's name, or empty for the pool). [1e-6 kWh]</summary>
    public IReadOnlyDictionary<string, long> BankMicroKwh { get; init; } = new Dictionary<string, long>();

    /// <summary>Net billing: banked credit. [currency]</summary>
    public decimal CreditBank { get; init; }

    /// <summary>Use of the days before, for baselines; none where no baseline needs it.</summary>
    public MeteredSeries? RecentUse { get; init; }
}

/// <summary>The highest power of a demand charge in one billing period.</summary>
/// <param name="Charge">Name of the demand charge.</param>
/// <param name="Year">Year of the billing month.</param>
/// <param name="Month">Billing month, 1 to 12.</param>
/// <param name="Kw">Measured, before minimum, ratchet and rounding of the billed power. [kW]</param>
public sealed record PastPeak(string Charge, int Year, int Month, decimal Kw)
{
    /// <summary>Months since the year 0.</summary>
    internal int MonthIndex => (Year * 12) + Month - 1;
}
