using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What of a plan prices and terms don't bound from below, and how many lines it can have.</summary>
internal static class LeastCoverage
{
    /// <summary>Adds what has no bound in a billing period.</summary>
    public static void AddOpen(ISet<string> open, PlanLayout layout, PeriodUse use)
    {
        var (plan, state) = (layout.Plan, layout.Input.State);
        if (layout.Input.Export is not null || state.CreditBank != 0 || state.BankMicroKwh.Values.Any(b => b != 0))
        {
            open.Add("Exported energy: added use takes from what it earns.");
        }

        if (plan.Credits.Any(c => c is { Per: ChargeUnit.KilowattHour, UseBand: not null }))
        {
            open.Add("A credit per kWh in a band of use.");
        }

        if (plan.DemandCharges.Any(d => d.Blocks.Any(b => b.PricePerKw < 0)) || plan.Rebates.Any(r => r.PricePerKwh < 0))
        {
            open.Add("A price of power or a rebate below zero.");
        }

        foreach (var charge in layout.EnergyCharges.Concat(layout.Adjustments).Where(c => c.Charge.HasBlocks && c.Scope.PricesUseOf(use)))
        {
            if (charge.Charge.HasPricesByPeriod && !charge.IsSeparable)
            {
                open.Add($"{charge.Charge.Name}: blocks whose prices differ from block to block by another amount in each period.");
            }

            var blocks = charge.Charge.Blocks;
            if (Enumerable.Range(0, blocks.Count - 1).Any(b => blocks[b].UpToKwhPerKw is not null && IsCheaperThanLater(charge, b)))
            {
                open.Add($"{charge.Charge.Name}: more power widens a block that is cheaper than a later one.");
            }
        }
    }

    /// <summary>Adds what has no bound over all: billing periods that metering intervals cut, and hours that netting cuts.</summary>
    public static void AddOpen(ISet<string> open, RatePlan plan, PriceSchedule prices, MeteredSeries use)
    {
        var stretch = Math.Max(use.IntervalSeconds, (plan.Export?.NettingMinutes ?? 0) * 60L);
        if (stretch > use.IntervalSeconds && plan.DemandCharges.Count > 0)
        {
            open.Add("Power that is averaged within what netting makes even.");
        }

        // From a border of the stretches: those of netting begin with the clock, metering intervals with the series.
        var origin = stretch > use.IntervalSeconds ? 0 : use.StartSecond;
        var borders = prices.Terms.Select(t => t.BillingPeriod.Start);
        if (stretch > use.IntervalSeconds)
        {
            borders = borders.Concat(prices.Terms.OfType<BlockTerm>().SelectMany(b => b.Hours.SelectMany(h => new[] { h.Start, h.End })))
                .Concat(prices.Spans.Select(s => s.Start)).Append(use.Start);
        }

        if (borders.Any(b => (b.ToUnixTimeSeconds() - origin) % stretch != 0))
        {
            open.Add("Billing periods or hours that begin within what the meter makes even.");
        }
    }

    /// <summary>The most lines of a billing period.</summary>
    public static int MostLines(PlanLayout layout, PeriodUse use) =>
        layout.CustomerCharges.Count(c => c.Scope.IsIn(use))
        + layout.EnergyCharges.Concat(layout.Adjustments).Where(c => c.Scope.PricesUseOf(use)).Sum(c => (c.Charge.HasBlocks && !c.Charge.WholeUse ? c.Charge.Blocks.Count : 1)
            * (c.Charge.HasPricesByPeriod ? c.Scope.Cells.Select(c.Scope.Calendar.PeriodOf).Distinct().Count() : 1))
        + layout.DemandCharges.Where(d => d.Scope.IsIn(use)).Sum(d => d.Charge.Blocks.Count)
        + layout.Credits.Count(c => c.Credit.Per == ChargeUnit.KilowattHour ? c.Scope.PricesUseOf(use) : c.Scope.IsIn(use))
        + layout.Plan.Rebates.Sum(r => layout.Events[r.Event].Count(e => e.Start(layout.Plan.Zone) >= use.Period.Start && e.Start(layout.Plan.Zone) < use.Period.End))
        + layout.Plan.Taxes.Count
        + (layout.Plan.MinimumBill is null ? 0 : 1);

    private static bool IsCheaperThanLater(ChargeLayout charge, int block) =>
        charge.Scope.Cells.Select(charge.Scope.Calendar.PeriodOf).Distinct()
            .Any(p => Enumerable.Range(block + 1, charge.Charge.Blocks.Count - block - 1).Any(later => charge.PriceIn(later, p) > charge.PriceIn(block, p)));
}
