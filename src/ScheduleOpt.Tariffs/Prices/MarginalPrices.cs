using ScheduleOpt.Tariffs.Billing;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What one more kWh adds to the bill of one billing period, by cell, percentages included.</summary>
internal sealed class MarginalPrices
{
    private readonly PlanLayout layout;
    private readonly Dictionary<BillPart, decimal> multiplier;
    private readonly ChargePrices[] charges;
    private readonly decimal?[] prices;

    /// <param name="layout">The plan's layout.</param>
    /// <param name="use">Expected use of the billing period.</param>
    /// <param name="before">Use on top of it, of unknown hours. [kWh]</param>
    /// <param name="multiplier">What percentages make of each part.</param>
    public MarginalPrices(PlanLayout layout, PeriodUse use, decimal before, Dictionary<BillPart, decimal> multiplier)
    {
        (this.layout, this.multiplier) = (layout, multiplier);
        charges = [.. layout.Charges.Select(charge => new ChargePrices(layout, charge, use, before))];
        prices = new decimal?[layout.Cells];
    }

    /// <summary>The price in a cell; few cells occur in a billing period, so each is worked out when it is asked for.</summary>
    public decimal this[int cell] =>
        prices[cell] ??= charges.Where(c => c.Covers(cell)).Sum(c => c.In(layout.PeriodOf(cell)) * multiplier[c.Part]);

    public IEnumerable<string> Warnings(BillingPeriod period)
    {
        var start = period.Start.InZone(layout.Plan.Zone).Date.ToString("uuuu-MM-dd", null);
        return charges.Select(c => c.Warning(start)).Where(w => w.Length > 0);
    }
}
