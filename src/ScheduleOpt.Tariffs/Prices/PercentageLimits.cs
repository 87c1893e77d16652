using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>Percentages that a limit may cut, at the least and at the most that they make of added use.</summary>
/// <remarks>Such a percentage is the least of several amounts, none of which falls while use is added; so it is no less than at the expected use. At the least added
/// use does not raise it, unless the amount per kWh stays the least of them.</remarks>
internal sealed class PercentageLimits
{
    private readonly PlanLayout layout;
    private readonly PeriodUse use;

    public PercentageLimits(PlanLayout layout, PeriodUse use, ExpectedStatement expected)
    {
        (this.layout, this.use) = (layout, use);
        var isMinimumBinding = expected.Lines.Any(l => l.Part == BillPart.MinimumBill);
        var (least, greatest) = (new List<PercentageOutcome>(), new List<PercentageOutcome>());
        foreach (var outcome in expected.Percentages)
        {
            if (outcome.Cap is null)
            {
                least.Add(outcome);
                greatest.Add(outcome);
                continue;
            }

            var added = LeastAddedPerKwh(outcome.Tax);
            if (outcome.Tax.Charged < 0 || added is null or < 0 || (isMinimumBinding && outcome.Tax.Parts.Contains(BillPart.MinimumBill)))
            {
                Open.Add($"{outcome.Tax.Name}: a percentage with a limit, whose base may fall.");
            }

            var staysPerKwh = outcome is { Limb: PercentageLimb.PerKwh, Tax.AtMost: null }
                && added * outcome.Share * outcome.Tax.Charged / 100 >= outcome.Tax.OrPerKwh;
            least.Add(staysPerKwh ? outcome : outcome with { Limb = PercentageLimb.Capped });
            greatest.Add(outcome with { Limb = PercentageLimb.Percent });
        }

        (Least, Greatest) = (least, greatest);
    }

    public IReadOnlyList<PercentageOutcome> Least { get; }

    public IReadOnlyList<PercentageOutcome> Greatest { get; }

    public List<string> Open { get; } = [];

    /// <summary>What one more kWh adds at least to the base of a percentage; none where more may make it less. [currency/kWh]</summary>
    private decimal? LeastAddedPerKwh(Tax tax)
    {
        var plan = layout.Plan;
        var sum = 0m;
        foreach (var layer in layout.EnergyCharges.Where(c => c.Scope.PricesUseOf(use)).GroupBy(c => c.Charge.Layer))
        {
            // Each kWh is priced by one charge of the layer.
            decimal? lowest = null;
            foreach (var charge in layer)
            {
                var isOn = tax.IsOn(new(BillPart.EnergyCharge, charge.Charge.Name, 0, "", 0, 0) { Layer = charge.Charge.Layer });
                if (isOn && charge.LeastPrice is null)
                {
                    return null;
                }

                lowest = Math.Min(lowest ?? decimal.MaxValue, isOn ? charge.LeastPrice!.Value : 0);
            }

            sum += lowest ?? 0;
        }

        foreach (var charge in layout.Adjustments.Where(c => tax.IsOn(new(BillPart.Adjustment, c.Charge.Name, 0, "", 0, 0))))
        {
            if (charge.LeastPrice is not { } price)
            {
                return null;
            }

            sum += Math.Min(0, price);
        }

        sum -= plan.Credits.Where(c => c.Per == ChargeUnit.KilowattHour && tax.IsOn(new(BillPart.Credit, c.Name, 0, "", 0, 0))).Sum(c => c.Amount);
        return plan.Taxes.Any(t => t.Charged < 0) || plan.DemandCharges.Any(d => d.Blocks.Any(b => b.PricePerKw < 0)) ? null : sum;
    }
}
