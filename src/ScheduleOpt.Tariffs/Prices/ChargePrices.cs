using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs.Billing;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What one more kWh under one charge costs in one billing period, by period, before percentages.</summary>
internal sealed class ChargePrices
{
    private readonly ChargeLayout charge;
    private readonly PeriodUse use;
    private readonly decimal reachedKwh;
    private readonly int reachedBlock;
    private readonly decimal[] limits;
    private readonly decimal[] byPeriod;
    private readonly List<(long Second, int Period)> crossings;

    /// <param name="charge">The charge, flat or in blocks.</param>
    /// <param name="use">Expected use of the billing period.</param>
    /// <param name="before">Use on top of it, of unknown hours. [kWh]</param>
    /// <param name="billedKw">Billed power that limits are multiplied by. [kW]</param>
    /// <param name="factor">What percentages make of a unit on it.</param>
    public ChargePrices(ChargeLayout charge, PeriodUse use, decimal before, decimal billedKw, decimal factor)
    {
        (this.charge, this.use) = (charge, use);
        Factor = factor * charge.Charge.LossFactor;
        IsIn = charge.Scope.PricesUseOf(use);
        limits = charge.Limits(use, billedKw);
        reachedKwh = PeriodUse.Kwh(charge.Scope.MicroKwh(use)) + before;
        reachedBlock = ChargeLayout.BlockAfter(reachedKwh, limits);
        byPeriod = !charge.Charge.HasPricesByPeriod || reachedKwh == 0 || charge.Charge.WholeUse
            ? [.. Enumerable.Range(0, charge.Scope.Calendar.Periods).Select(period => charge.PriceIn(reachedBlock, period))]
            : charge.Charge.FillsInTimeOrder ? [] : SharedBlocks();
        crossings = ChangesOverTime ? charge.Crossings(use, limits) : [];
    }

    public ChargeLayout Charge => charge;

    /// <summary>Whether it is there in the billing period.</summary>
    public bool IsIn { get; }

    /// <summary>What percentages and losses make of its prices.</summary>
    public decimal Factor { get; }

    /// <summary>Whether its price changes while use fills its blocks.</summary>
    public bool ChangesOverTime => IsIn && reachedKwh > 0 && charge.Charge is { FillsInTimeOrder: true, HasPricesByPeriod: true, WholeUse: false };

    /// <summary>The price at a second, where it changes over time: that of the block reached by then, and what the use that it pushes over later limits
    /// costs more.</summary>
    public decimal At(long second, int period, ref long next)
    {
        decimal price = 0;
        var block = 0;
        for (var i = 0; i < crossings.Count; i++)
        {
            if (crossings[i].Second <= second)
            {
                block = i + 1;
            }
            else
            {
                next = Math.Min(next, crossings[i].Second);
                price += charge.PriceIn(i + 1, crossings[i].Period) - charge.PriceIn(i, crossings[i].Period);
            }
        }

        return (price + charge.PriceIn(block, period)) * Factor;
    }

    public decimal In(int period) => byPeriod[period] * Factor;

    /// <summary>The blocks as a term; none for a flat price.</summary>
    public BlockTerm? Term(NodaTime.Interval billingPeriod, IReadOnlyList<NodaTime.Interval> hours)
    {
        if (!IsIn || !charge.Charge.HasBlocks)
        {
            return null;
        }

        var blocks = new PriceBlock[limits.Length];
        var shares = charge.Charge.HasPricesByPeriod ? Shares() : [];
        decimal below = 0;
        for (var i = 0; i < blocks.Length; i++)
        {
            blocks[i] = new(limits[i] == decimal.MaxValue ? null : limits[i] - below, MeanPrice(i, shares) * Factor);
            below = limits[i];
        }

        var rises = blocks.Skip(reachedBlock).Zip(blocks.Skip(reachedBlock + 1), (a, b) => b.PricePerKwh >= a.PricePerKwh).All(r => r);
        var convex = rises && !charge.Charge.WholeUse && (!charge.Charge.HasPricesByPeriod || charge.IsSeparable);
        return new(charge.Charge.Name, billingPeriod, convex, hours, reachedKwh, blocks, reachedBlock, charge.Charge.WholeUse);
    }

    /// <summary>The nearest limits; none for a flat price.</summary>
    public PriceEdge? Edge()
    {
        if (!IsIn || !charge.Charge.HasBlocks)
        {
            return null;
        }

        decimal? more = limits[reachedBlock] == decimal.MaxValue ? null : limits[reachedBlock] - reachedKwh;
        decimal? less = reachedBlock == 0 ? null : reachedKwh - limits[reachedBlock - 1];
        return new(EdgeKind.Block, charge.Charge.Name, use.Period.Start, more, less, "kWh", charge.Charge.WholeUse);
    }

    /// <summary>What the reader of a price in blocks must know; empty for a flat price.</summary>
    public string Warning(string billingPeriod)
    {
        if (!IsIn || !charge.Charge.HasBlocks || charge.Scope.Cells.Length == 0)
        {
            return "";
        }

        var room = limits[reachedBlock];
        return FormattableString.Invariant(
            $"{charge.Charge.Name} is priced at block {reachedBlock + 1}: {reachedKwh:0.#} kWh are expected in the billing period from {billingPeriod}")
            + (room == decimal.MaxValue ? "." : FormattableString.Invariant($"; after {room - reachedKwh:0.#} kWh more the price changes."));
    }

    private decimal MeanPrice(int block, decimal[] shares) =>
        shares.Length == 0 ? charge.PriceIn(block, 0) : shares.Select((share, period) => share * charge.PriceIn(block, period)).Sum();

    // cost = sum over blocks of width / total * (sum over periods of use * price): one more kWh is priced at its period's share of every block, and moves
    // everyone's use a little towards the block reached.
    private decimal[] SharedBlocks()
    {
        var shares = Shares();
        var prices = new decimal[charge.Scope.Calendar.Periods];
        decimal below = 0, mean = 0;
        for (var block = 0; block <= reachedBlock; block++)
        {
            var top = Math.Min(limits[block], reachedKwh);
            mean = MeanPrice(block, shares);
            for (var period = 0; period < prices.Length; period++)
            {
                prices[period] += (top - below) / reachedKwh * (charge.PriceIn(block, period) - mean);
            }

            below = top;
        }

        return [.. prices.Select(p => p + mean)];
    }

    // Use of unknown hours is taken to be spread like the expected use.
    private decimal[] Shares()
    {
        var uses = charge.UseByPeriod(use);
        var expected = (decimal)uses.Sum();
        if (expected > 0)
        {
            return [.. uses.Select(u => u / expected)];
        }

        var periods = charge.Scope.Cells.Select(charge.Scope.Calendar.PeriodOf).Distinct().ToArray();
        return [.. Enumerable.Range(0, uses.Length).Select(p => periods.Contains(p) ? 1m / periods.Length : 0)];
    }
}
