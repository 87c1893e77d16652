namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>An alternative against the reference case, at one discount rate.</summary>
/// <remarks>Among alternatives that exclude each other the one with the lowest life-cycle cost is best; ratio and rate of return only say
/// whether one beats the reference, and do not rank: NIST Handbook 135.</remarks>
/// <param name="Reference">The reference case.</param>
/// <param name="Alternative">The alternative.</param>
public sealed record LifeCycleResult(LifeCycleCost Reference, LifeCycleCost Alternative)
{
    /// <summary>Present value of what running costs less. [currency]</summary>
    public decimal Savings => Reference.Running - Alternative.Running;

    /// <summary>Present value of what investment and replacement, less incentives and salvage, cost more. [currency]</summary>
    public decimal AddedCapital => Alternative.Capital - Reference.Capital;

    /// <summary>Life-cycle cost of the reference less that of the alternative. [currency]</summary>
    /// <remarks>10 CFR 436.20.</remarks>
    public decimal NetSavings => Reference.Total - Alternative.Total;

    /// <summary>Savings over added capital; none where the alternative needs no added capital.</summary>
    /// <remarks>10 CFR 436.21. Negative where running costs more.</remarks>
    public decimal? SavingsToInvestmentRatio => AddedCapital > 0 ? Savings / AddedCapital : null;

    /// <summary>The yearly yield of the added capital if savings are reinvested at the discount rate, a fraction; none without a ratio or
    /// where it is negative.</summary>
    /// <remarks>10 CFR 436.22: the n-th root of terminal value of savings over present value of cost, less 1; equal to
    /// (1 + d) * SIR^(1/n) - 1.</remarks>
    public double? AdjustedInternalRateOfReturn => SavingsToInvestmentRatio is { } ratio and >= 0
        ? ((1 + (double)Reference.Rate.Real) * Math.Pow((double)ratio, 1.0 / Reference.Study.Years)) - 1
        : null;

    /// <summary>Payback without discounting, escalation of prices included: a rough measure only.</summary>
    public Payback SimplePayback => Payback.Of(Reference, Alternative, null);

    /// <summary>Payback with discounting.</summary>
    public Payback DiscountedPayback => Payback.Of(Reference, Alternative, Reference.Rate);

    /// <summary>Whether one of the four measures of 10 CFR 436.18(c) speaks for the alternative.</summary>
    public bool IsCostEffective => NetSavings > 0 || SavingsToInvestmentRatio > 1 || AdjustedInternalRateOfReturn > (double)Reference.Rate.Real;
}
