using ScheduleOpt.Tariffs.Billing;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What one more kWh adds to the bill of one billing period, by cell.</summary>
internal sealed class MarginalPrices
{
    private readonly PlanLayout layout;
    private readonly PeriodUse use;
    private readonly decimal before;
    private readonly decimal[] prices;

    /// <param name="layout">The plan's layout.</param>
    /// <param name="use">Expected use of the billing period.</param>
    /// <param name="before">Use on top of it, of unknown hours. [kWh]</param>
    /// <param name="multiplier">What percentages make of each part.</param>
    public MarginalPrices(PlanLayout layout, PeriodUse use, decimal before, Dictionary<BillPart, decimal> multiplier)
    {
        (this.layout, this.use, this.before) = (layout, use, before);
        prices = new decimal[layout.Cells];
        foreach (var charge in layout.Charges)
        {
            foreach (var cell in charge.Cells)
            {
                prices[cell] += Price(charge, cell) * multiplier[charge.Part];
            }
        }
    }

    public decimal this[int cell] => prices[cell];

    public IEnumerable<string> Warnings(BillingPeriod period)
    {
        foreach (var charge in layout.Charges.Where(c => c.Charge.HasBlocks && c.Cells.Length > 0))
        {
            var reached = charge.Use(use) + before;
            var block = charge.BlockAfter(reached, use);
            var room = charge.Limit(block, use);
            yield return FormattableString.Invariant(
                $"{charge.Charge.Name} is priced at block {block + 1}: {reached:0.#} kWh are expected in the billing period from {period.Start.InZone(layout.Plan.Zone).Date:uuuu-MM-dd}")
                + (room == decimal.MaxValue ? "." : FormattableString.Invariant($"; after {room - reached:0.#} kWh more the price changes."));
        }
    }

    private decimal Price(ChargeLayout charge, int cell)
    {
        var period = layout.PeriodOf(cell);
        if (!charge.Charge.HasBlocks)
        {
            return charge.PriceIn(0, period);
        }

        var total = charge.Use(use) + before;
        var reached = charge.BlockAfter(total, use);
        if (total == 0 || charge.Charge.Blocks.All(b => b.PriceByPeriod is null))
        {
            return charge.PriceIn(reached, period);
        }

        // cost = sum over blocks of width / total * (sum over periods of use * price): one more kWh is priced at its period's share of every block,
        // and moves everyone's use a little towards the block reached.
        decimal price = 0, below = 0;
        for (var block = 0; block <= reached; block++)
        {
            var width = Math.Min(charge.Limit(block, use), total) - below;
            var mean = charge.Cells.Sum(c => UseShare(charge, c) * charge.PriceIn(block, layout.PeriodOf(c)));
            price += (width / total * charge.PriceIn(block, period)) - (width / total * mean) + (block == reached ? mean : 0);
            below += width;
        }

        return price;
    }

    // Use of unknown hours is taken to be spread like the expected use.
    private decimal UseShare(ChargeLayout charge, int cell)
    {
        var expected = charge.Use(use);
        return expected > 0 ? use.Kwh([cell]) / expected : 1m / charge.Cells.Length;
    }
}
