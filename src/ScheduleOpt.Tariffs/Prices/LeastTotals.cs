using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>Adds up, billing period by billing period, what is billed at least whatever use is added to the expected one.</summary>
/// <param name="rounding">How the plan's bills are rounded.</param>
/// <param name="mostAddedKw">The most power that is added. [kW]</param>
internal sealed class LeastTotals(Rounding rounding, decimal mostAddedKw)
{
    private readonly SortedSet<string> open = new(StringComparer.Ordinal);

    /// <summary>The least so far. [currency]</summary>
    public decimal Total { get; private set; }

    /// <summary>Whether prices or terms differ from those of the expected use.</summary>
    public bool IsLower { get; private set; }

    /// <summary>What has no bound.</summary>
    public IReadOnlyList<string> Open => [.. open];

    /// <summary>Adds a billing period.</summary>
    /// <returns>Its statement with percentages at their least.</returns>
    public ExpectedStatement Add(PlanLayout layout, PeriodUse use, ExpectedStatement expected)
    {
        LeastCoverage.AddOpen(open, layout, use);
        var limits = new PercentageLimits(layout, use, expected);
        open.UnionWith(limits.Open);
        var least = expected with { Stack = new(limits.Least), Greatest = new(limits.Greatest) };
        var missing = MissingToMinimum(layout, use, expected, least);
        IsLower |= missing > 0 || expected.Percentages.Any(p => p.Cap is not null);
        Total += expected.Lines.Sum(l => l.Amount) - missing - MostRebates(layout, use, least) - MostRounding(layout, use);
        return missing > 0 ? least with { IsMinimumLeftOut = true } : least;
    }

    // Where counted charges rise faster than what is billed, a minimum bill is left out, and with it what is missing to it: a lower bound all the same.
    private static decimal MissingToMinimum(PlanLayout layout, PeriodUse use, ExpectedStatement expected, ExpectedStatement least)
    {
        var plan = layout.Plan;
        if (plan.MinimumBill is not { } minimum)
        {
            return 0;
        }

        var missing = (minimum.Amount * use.Units(minimum.Per)) - expected.Lines.Where(minimum.IsCounted).Sum(l => l.Amount);
        if (missing <= 0)
        {
            return 0;
        }

        var factor = minimum.AfterTaxes ? 1 : expected.Stack.Of(BillPart.MinimumBill, PercentageStack.MinimumLine);
        bool RisesWith(BillPart part, string name, string? layer = null, bool falls = false)
        {
            var (billed, counted) = (least.Stack.Of(part, name, layer), factor * least.Greatest.CountedOf(minimum, part, name, layer));
            return falls ? Math.Abs(billed - counted) < 1e-12m : counted <= billed + 1e-12m;
        }

        var follows = layout.EnergyCharges.All(c => RisesWith(BillPart.EnergyCharge, c.Charge.Name, c.Charge.Layer, c.LeastPrice is null or < 0))
            && layout.Adjustments.All(c => RisesWith(BillPart.Adjustment, c.Charge.Name, null, c.LeastPrice is null or < 0))
            && plan.DemandCharges.All(c => RisesWith(BillPart.DemandCharge, c.Name))
            && plan.Credits.Where(c => c.Per == ChargeUnit.KilowattHour || c.UseBand is not null).All(c => RisesWith(BillPart.Credit, c.Name, null, true))
            && plan.CustomerCharges.Where(c => c.UseBand is not null).All(c => RisesWith(BillPart.CustomerCharge, c.Name, null, true))
            && expected.Stack.PerKwh == 0;
        return follows ? 0 : factor * missing;
    }

    // A baseline that is worked out from earlier days rises no more than the power that is added on them.
    private decimal MostRebates(PlanLayout layout, PeriodUse use, ExpectedStatement least)
    {
        var most = 0m;
        foreach (var rebate in layout.Plan.Rebates)
        {
            foreach (var called in layout.Events[rebate.Event])
            {
                var (start, end) = (called.Start(layout.Plan.Zone), called.End(layout.Plan.Zone));
                if (start < use.Period.Start || start >= use.Period.End || use.Billed is null)
                {
                    continue;
                }

                var baselines = new Baselines(layout, use.Billed.Metered, layout.Input.State.RecentUse);

                // The clock may make the same hours of another day longer by one.
                var added = called.BaselineKwh is null ? mostAddedKw * (decimal)((end - start).TotalHours + 1) : 0;
                if (baselines.Of(rebate, called) is { } baseline)
                {
                    most += Math.Max(0, baseline + added - baselines.Use(start, end)) * rebate.PricePerKwh * least.Greatest.Of(BillPart.Credit, rebate.Name);
                }
            }
        }

        return most;
    }

    // Each rounding is off by half a unit at most, and what percentages make of it.
    private decimal MostRounding(PlanLayout layout, PeriodUse use)
    {
        var unit = 1m;
        for (var i = 0; i < rounding.Decimals; i++)
        {
            unit /= 10;
        }

        return rounding.Each switch
        {
            RoundingScope.Bill => unit / 2,
            RoundingScope.Line => LeastCoverage.MostLines(layout, use) * unit / 2
                * layout.Plan.Taxes.Aggregate(1m, (factor, tax) => factor * (1 + (Math.Abs(tax.Charged) / 100))),
            _ => 0,
        };
    }
}
