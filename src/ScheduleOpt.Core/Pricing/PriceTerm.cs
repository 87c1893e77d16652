using NodaTime;

namespace ScheduleOpt.Core.Pricing;

/// <summary>A part of a bill that a price per kWh alone does not say, in one billing period.</summary>
/// <param name="Name">The charge's name in the rate plan.</param>
/// <param name="BillingPeriod">The billing period.</param>
/// <param name="IsConvex">Whether more of it never gets cheaper: then it may enter a linear program; otherwise it needs a binary.</param>
public abstract record PriceTerm(string Name, Interval BillingPeriod, bool IsConvex);

/// <summary>Prices by block of use.</summary>
/// <param name="Name">The charge's name.</param>
/// <param name="BillingPeriod">The billing period.</param>
/// <param name="IsConvex">Whether prices rise from block to block.</param>
/// <param name="Hours">The hours whose use it counts, in order.</param>
/// <param name="UsedKwh">Use that is counted already: so far and expected. [kWh]</param>
/// <param name="Blocks">The blocks in order.</param>
/// <param name="ReachedBlock">Index of the block of the next kWh; its price is in the price per kWh.</param>
/// <param name="WholeUse">Whether all the use is at the price of the block that it ends in.</param>
public sealed record BlockTerm(
    string Name,
    Interval BillingPeriod,
    bool IsConvex,
    IReadOnlyList<Interval> Hours,
    decimal UsedKwh,
    IReadOnlyList<PriceBlock> Blocks,
    int ReachedBlock,
    bool WholeUse) : PriceTerm(Name, BillingPeriod, IsConvex);

/// <summary>One block.</summary>
/// <param name="WidthKwh">Its width; none for the last. [kWh]</param>
/// <param name="PricePerKwh">Its price, percentages included. [currency/kWh]</param>
public readonly record struct PriceBlock(decimal? WidthKwh, decimal PricePerKwh);

/// <summary>A charge for power. It is not in the price per kWh.</summary>
/// <param name="Name">The charge's name.</param>
/// <param name="BillingPeriod">The billing period.</param>
/// <param name="IsConvex">Whether its blocks rise and it bills the highest average as it is.</param>
/// <param name="Hours">The hours in which averages that count begin, in order; told from one average before the prices on, so that those under way at their start are known.</param>
/// <param name="Averaging">Length over which power is averaged.</param>
/// <param name="Sliding">Whether averages begin at each metering interval; otherwise they are aligned with the clock.</param>
/// <param name="MeasuredKw">Highest average of the use so far and expected. [kW]</param>
/// <param name="FloorKw">Least billed power, by minimum and ratchet: up to here a new peak costs nothing now. [kW]</param>
/// <param name="BilledKw">Billed power, rounded as the plan says. [kW]</param>
/// <param name="Blocks">Prices by block of kW, percentages included.</param>
/// <param name="RatchetPercent">The share of this peak that later billing periods bill at least; none without a ratchet. [%]</param>
public sealed record DemandTerm(
    string Name,
    Interval BillingPeriod,
    bool IsConvex,
    IReadOnlyList<Interval> Hours,
    Duration Averaging,
    bool Sliding,
    decimal MeasuredKw,
    decimal FloorKw,
    decimal BilledKw,
    IReadOnlyList<DemandPrice> Blocks,
    decimal? RatchetPercent) : PriceTerm(Name, BillingPeriod, IsConvex)
{
    /// <summary>The most by which rounding bills less than the power. [kW] Zero or more; zero where it is billed to the last decimal.</summary>
    public decimal RoundedAwayKw { get; init; }

    /// <summary>Of how many days the mean of the highest averages is billed; none where the highest of all is. [days]</summary>
    public int? MeanOfDays { get; init; }

    /// <summary>What one more kW above the billed power costs. [currency/kW]</summary>
    public decimal PricePerKw
    {
        get
        {
            foreach (var block in Blocks)
            {
                if (block.UpToKw is null || BilledKw < block.UpToKw)
                {
                    return block.PricePerKw;
                }
            }

            return 0;
        }
    }
}

/// <summary>One block of a charge for power.</summary>
/// <param name="UpToKw">Upper limit; none for the last. [kW]</param>
/// <param name="PricePerKw">Price, percentages included. [currency/kW]</param>
public readonly record struct DemandPrice(decimal? UpToKw, decimal PricePerKw);

/// <summary>A minimum bill. While it binds, more use of what it counts costs nothing; that is not in the price per kWh.</summary>
/// <param name="Name">Its name.</param>
/// <param name="BillingPeriod">The billing period.</param>
/// <param name="Minimum">The least. [currency]</param>
/// <param name="Counted">What counts towards it so far and expected. [currency]</param>
public sealed record MinimumTerm(string Name, Interval BillingPeriod, decimal Minimum, decimal Counted) : PriceTerm(Name, BillingPeriod, true)
{
    /// <summary>What percentages make of one unit of what is missing to it.</summary>
    public decimal Factor { get; init; } = 1;

    /// <summary>Whether it binds.</summary>
    public bool Binds => Counted < Minimum;
}

/// <summary>An amount that holds only while the use of the billing period lies in a band.</summary>
/// <param name="Name">Its name.</param>
/// <param name="BillingPeriod">The billing period.</param>
/// <param name="OverKwh">Lower limit, excluded. [kWh]</param>
/// <param name="UpToKwh">Upper limit, included. [kWh]</param>
/// <param name="UsedKwh">Use so far and expected. [kWh]</param>
/// <param name="Amount">What the bill has more inside the band than outside, percentages included; negative for a credit. [currency]</param>
public sealed record BandTerm(string Name, Interval BillingPeriod, decimal? OverKwh, decimal? UpToKwh, decimal UsedKwh, decimal Amount)
    : PriceTerm(Name, BillingPeriod, false);

/// <summary>A percentage of other lines, in the order in which they are worked out.</summary>
/// <param name="Name">Its name.</param>
/// <param name="BillingPeriod">The billing period.</param>
/// <param name="Percent">What is charged. [%]</param>
/// <param name="Base">Its base at the use so far and expected. [currency]</param>
/// <param name="Cap">The most that it can be at that use; none for no limit. [currency]</param>
public sealed record PercentageTerm(string Name, Interval BillingPeriod, decimal Percent, decimal Base, decimal? Cap)
    : PriceTerm(Name, BillingPeriod, Cap is null);
