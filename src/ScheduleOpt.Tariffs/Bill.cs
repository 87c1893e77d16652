namespace ScheduleOpt.Tariffs;

/// <summary>What a metered series costs on a rate plan.</summary>
/// <param name="RatePlanId">The rate plan's identifier.</param>
/// <param name="Currency">ISO 4217 code of every amount.</param>
/// <param name="Periods">One statement per billing period, in order.</param>
/// <param name="Warnings">What the reader of the bill must know; may be empty.</param>
public sealed record Bill(string RatePlanId, string Currency, IReadOnlyList<BillStatement> Periods, IReadOnlyList<string> Warnings)
{
    /// <summary>What the next bill needs to know.</summary>
    public BillState State { get; init; } = BillState.Empty;

    /// <summary>The sum of the statements. [currency]</summary>
    public decimal Total { get; } = Periods.Sum(p => p.Total);

    /// <summary>The sum of the lines of one part. [currency]</summary>
    public decimal TotalOf(BillPart part) => Periods.Sum(p => p.Lines.Where(l => l.Part == part).Sum(l => l.Amount));

    /// <summary>The sums of all parts that have a line; they add up to the total. [currency]</summary>
    public IReadOnlyDictionary<BillPart, decimal> TotalsByPart() =>
        Periods.SelectMany(p => p.Lines).GroupBy(l => l.Part).OrderBy(g => g.Key).ToDictionary(g => g.Key, g => g.Sum(l => l.Amount));
}
