using ScheduleOpt.Tariffs.Billing;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What one more kWh under one charge costs in one billing period, by period, before percentages.</summary>
internal sealed class ChargePrices
{
    private readonly ChargeLayout charge;
    private readonly decimal reachedKwh;
    private readonly int reachedBlock;
    private readonly decimal[] limits;
    private readonly decimal[] byPeriod;

    /// <param name="layout">The plan's layout.</param>
    /// <param name="charge">The charge.</param>
    /// <param name="use">Expected use of the billing period.</param>
    /// <param name="before">Use on top of it, of unknown hours. [kWh]</param>
    public ChargePrices(PlanLayout layout, ChargeLayout charge, PeriodUse use, decimal before)
    {
        this.charge = charge;
        limits = charge.Limits(use);
        reachedKwh = charge.Use(use) + before;
        reachedBlock = ChargeLayout.BlockAfter(reachedKwh, limits);
        byPeriod = reachedKwh > 0 && charge.Charge.Blocks.Any(b => b.PriceByPeriod is not null)
            ? SharedBlocks(layout, use)
            : [.. Enumerable.Range(0, layout.Periods).Select(period => charge.PriceIn(reachedBlock, period))];
    }

    public BillPart Part => charge.Part;

    public bool Covers(int cell) => charge.Covers(cell);

    public decimal In(int period) => byPeriod[period];

    /// <summary>What the reader of a price in blocks must know; empty for a flat price.</summary>
    public string Warning(string billingPeriod)
    {
        if (!charge.Charge.HasBlocks || charge.Cells.Length == 0)
        {
            return "";
        }

        var room = limits[reachedBlock];
        return FormattableString.Invariant(
            $"{charge.Charge.Name} is priced at block {reachedBlock + 1}: {reachedKwh:0.#} kWh are expected in the billing period from {billingPeriod}")
            + (room == decimal.MaxValue ? "." : FormattableString.Invariant($"; after {room - reachedKwh:0.#} kWh more the price changes."));
    }

    // cost = sum over blocks of width / total * (sum over periods of use * price): one more kWh is priced at its period's share of every block, and moves
    // everyone's use a little towards the block reached.
    private decimal[] SharedBlocks(PlanLayout layout, PeriodUse use)
    {
        var shares = Shares(layout, use);
        var prices = new decimal[layout.Periods];
        decimal below = 0, mean = 0;
        for (var block = 0; block <= reachedBlock; block++)
        {
            var top = Math.Min(limits[block], reachedKwh);
            mean = shares.Select((share, period) => share * charge.PriceIn(block, period)).Sum();
            for (var period = 0; period < prices.Length; period++)
            {
                prices[period] += (top - below) / reachedKwh * (charge.PriceIn(block, period) - mean);
            }

            below = top;
        }

        return [.. prices.Select(p => p + mean)];
    }

    // Use of unknown hours is taken to be spread like the expected use.
    private decimal[] Shares(PlanLayout layout, PeriodUse use)
    {
        var expected = charge.Use(use) * MeteredSeries.UnitsPerKilowattHour;
        var shares = new decimal[layout.Periods];
        foreach (var cell in charge.Cells)
        {
            shares[layout.PeriodOf(cell)] += expected > 0 ? use.MicroKwh[cell] / expected : 1m / charge.Cells.Length;
        }

        return shares;
    }
}
