namespace ScheduleOpt.Tariffs.Charges;

/// <summary>A charge for power averaged over minutes.</summary>
public sealed record DemandCharge : Scope
{
    /// <summary>What the bill calls it; a name of its own in the plan.</summary>
    public required string Name { get; init; }

    /// <summary>At least one; limits rise, the last has none.</summary>
    public required IReadOnlyList<DemandBlock> Blocks { get; init; }

    /// <summary>What the price is for: billing period, month or day.</summary>
    public ChargeUnit Per { get; init; } = ChargeUnit.BillingPeriod;

    /// <summary>Length over which power is averaged: 15, 30 or 60. A series in longer intervals is taken as it is. [min]</summary>
    public required int AveragingMinutes { get; init; }

    /// <summary>Whether averages begin at each metering interval; otherwise they are aligned with the clock.</summary>
    public bool Sliding { get; init; }

    /// <summary>Whether the mean of the daily highest is billed in place of the highest.</summary>
    public bool MeanOfDailyHighest { get; init; }

    /// <summary>How many of the highest days the mean is taken of; none for all.</summary>
    public int? HighestDays { get; init; }

    /// <summary>Decimals of the billed kW, 0 to 6.</summary>
    public int KwDecimals { get; init; } = 6;

    /// <summary>How the billed kW is rounded.</summary>
    public KwRounding KwRounding { get; init; } = KwRounding.HalfUp;

    /// <summary>Least billed power. [kW]</summary>
    public decimal MinimumKw { get; init; }

    /// <summary>What earlier demand makes of the billed power; none in most plans.</summary>
    public Ratchet? Ratchet { get; init; }
}

/// <summary>One block of a demand charge.</summary>
/// <param name="UpToKw">Upper limit, included; none in the last. [kW]</param>
/// <param name="PricePerKw">Price of each kW between the limit before it and its own. [currency/kW]</param>
public sealed record DemandBlock(decimal? UpToKw, decimal PricePerKw);

/// <summary>The least billed demand as a share of earlier demand.</summary>
/// <param name="Percent">1 to 100. [%]</param>
/// <param name="Months">Over so many billing months before; none where months are named.</param>
/// <param name="InMonths">Months, 1 to 12, of which the highest counts, among this billing month and the 11 before; empty where a number is given.</param>
/// <param name="Of">Name of the demand charge whose highest power counts; none for the charge itself.</param>
public sealed record Ratchet(decimal Percent, int? Months, IReadOnlyList<int> InMonths, string? Of = null);

/// <summary>How billed power is rounded.</summary>
public enum KwRounding
{
    /// <summary>To the nearest, a half upward.</summary>
    HalfUp,

    /// <summary>Upward.</summary>
    Up,

    /// <summary>Downward.</summary>
    Down,
}
