namespace ScheduleOpt.Comparison.Uncertainty;

/// <summary>What one input does to a figure, all others at their middle.</summary>
/// <param name="Input">The input.</param>
/// <param name="Low">With its low value.</param>
/// <param name="High">With its high value.</param>
/// <param name="Base">The base case.</param>
public sealed record TornadoBar(UncertainInput Input, UncertainOutcome Low, UncertainOutcome High, UncertainOutcome Base)
{
    /// <summary>From the least to the largest of the three. [currency]</summary>
    public decimal Swing => Most - Least;

    /// <summary>The least of the three. [currency]</summary>
    public decimal Least => Math.Min(Base.Amount, Math.Min(Low.Amount, High.Amount));

    /// <summary>The largest of the three. [currency]</summary>
    public decimal Most => Math.Max(Base.Amount, Math.Max(Low.Amount, High.Amount));

    /// <summary>Whether one end puts something else first.</summary>
    public bool FlipsRanking => Low.First != Base.First || High.First != Base.First;
}
