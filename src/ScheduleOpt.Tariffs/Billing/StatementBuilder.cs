using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Prices;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>Makes the statement of one billing period, line by line in the order of the rules of the bill.</summary>
internal sealed class StatementBuilder(PlanLayout layout, PeriodUse use, CarriedState carried)
{
    private const decimal PercentUnit = 100;
    private readonly RatePlan plan = layout.Plan;
    private readonly List<BillLine> lines = [];

    /// <summary>How each percentage came out, in the order worked out.</summary>
    public List<PercentageOutcome> Percentages { get; } = [];

    /// <summary>Billed power of each demand charge that is in the billing period. [kW]</summary>
    public Dictionary<string, decimal> BilledKw { get; private set; } = [];

    /// <summary>Export credit that could be used less what it could be used for; none where no credit is banked. [currency]</summary>
    public decimal? CreditBeyondDue { get; private set; }

    /// <summary>Makes the statement.</summary>
    /// <param name="paidOutMicroKwh">Banked energy that net metering pays out. [1e-6 kWh]</param>
    /// <param name="baselines">Baselines of rebates; none to leave rebates out.</param>
    /// <param name="warnings">Where warnings go.</param>
    public BillStatement Build(long paidOutMicroKwh, Baselines? baselines, List<string> warnings)
    {
        var kw = BilledKw = carried.BilledKw(layout, use);
        AddCustomerCharges();
        AddEnergy(layout.EnergyCharges, kw);
        foreach (var demand in layout.DemandCharges.Where(d => kw.ContainsKey(d.Charge.Name)))
        {
            lines.AddRange(demand.Lines(use, kw[demand.Charge.Name], plan.Rounding));
        }

        AddEnergy(layout.Adjustments, kw);
        AddPercentages(riders: true);
        AddCredits();
        if (baselines is not null)
        {
            AddRebates(baselines, warnings);
        }

        AddEnergy(layout.ExportPrices, kw);
        AddMinimum(afterTaxes: false);
        AddPercentages(riders: false);
        AddMinimum(afterTaxes: true);
        AddBank(paidOutMicroKwh);
        return Rounded();
    }

    private void AddCustomerCharges()
    {
        foreach (var (charge, scope) in layout.CustomerCharges)
        {
            if (scope.IsIn(use) && charge.UseBand?.Holds(use.TotalKwh) != false)
            {
                var price = charge.PerServiceKw ? charge.Amount * layout.ServiceKw : charge.Amount;
                Add(BillPart.CustomerCharge, charge.Name, scope.Units(use, charge.Per), UnitName(charge.Per), price, charge.Place, UnitRule(charge.Per));
            }
        }
    }

    private void AddEnergy(ChargeLayout[] charges, Dictionary<string, decimal> kw)
    {
        foreach (var charge in charges)
        {
            lines.AddRange(charge.Lines(use, plan.Rounding, charge.Charge.LimitDemand is { } name ? kw.GetValueOrDefault(name) : 0));
        }
    }

    private void AddCredits()
    {
        foreach (var (credit, scope) in layout.Credits)
        {
            if (!IsThere(credit, scope) || credit.UseBand?.Holds(use.TotalKwh) == false)
            {
                continue;
            }

            var quantity = credit.Per == ChargeUnit.KilowattHour ? PeriodUse.Kwh(scope.MicroKwh(use)) : scope.Units(use, credit.Per);
            if (quantity != 0)
            {
                Add(BillPart.Credit, credit.Name, quantity, UnitName(credit.Per), -credit.Amount, credit.Place, credit.UseBand is null ? "taken off" : "taken off while the use lies in its band");
            }
        }
    }

    private bool IsThere(Credit credit, ScopeLayout scope) => credit.Per == ChargeUnit.KilowattHour ? scope.PricesUseOf(use) : scope.IsIn(use);

    private void AddRebates(Baselines baselines, List<string> warnings)
    {
        foreach (var rebate in plan.Rebates)
        {
            foreach (var called in layout.Events[rebate.Event])
            {
                var start = called.Start(plan.Zone);
                if (start < use.Period.Start || start >= use.Period.End)
                {
                    continue;
                }

                var name = FormattableString.Invariant($"{rebate.Name}, {called.From:uuuu-MM-dd HH:mm}");
                if (baselines.Of(rebate, called) is not { } baseline)
                {
                    warnings.Add($"{name}: no day before it gives a baseline, so there is no rebate.");
                    continue;
                }

                var saved = baseline - baselines.Use(start, called.End(plan.Zone));
                if (saved > 0)
                {
                    Add(BillPart.Credit, name, saved, "kWh", -rebate.PricePerKwh, rebate.Place, FormattableString.Invariant($"baseline of {baseline} kWh less use, never negative"), rebate.Name);
                }
            }
        }
    }

    private void AddMinimum(bool afterTaxes)
    {
        if (plan.MinimumBill is { } minimum && minimum.AfterTaxes == afterTaxes)
        {
            var missing = plan.Rounding.Line(
                (minimum.Amount * use.Units(minimum.Per)) - lines.Where(minimum.IsCounted).Sum(l => l.Amount));
            if (missing > 0)
            {
                lines.Add(new(BillPart.MinimumBill, PercentageStack.MinimumLine, 1, "bill", missing, missing)
                {
                    Place = minimum.Place,
                    Rule = "minimum less the parts that count",
                });
            }
        }
    }

    private void AddPercentages(bool riders)
    {
        foreach (var tax in plan.Taxes.Where(t => t.IsRider == riders))
        {
            var share = CarriedState.ShareOfDays(layout, use, tax);
            var on = lines.Where(tax.IsOn).Sum(l => l.Amount) * share;
            var (quantity, unit, price) = (tax.Charged, "%", on / PercentUnit);
            var amount = quantity * price;
            var (plain, cap, limb) = (amount, (decimal?)null, PercentageLimb.Percent);
            var rule = tax.GrossUp ? "percentage of its base, grossed up" : "percentage of its base";
            if (tax.OrPerKwh is { } perKwh && (cap = perKwh * use.TotalKwh) < amount)
            {
                limb = PercentageLimb.PerKwh;
                (quantity, unit, price, amount, rule) = (use.TotalKwh, "kWh", perKwh, perKwh * use.TotalKwh, "the lesser of the percentage and an amount per kWh");
            }

            if (tax.AtMost is { } least)
            {
                cap = Math.Min(cap ?? decimal.MaxValue, least * use.Units(tax.AtMostPer));
            }

            if (tax.AtMost is { } most && most * use.Units(tax.AtMostPer) < amount)
            {
                limb = PercentageLimb.Capped;
                (quantity, unit, price, rule) = (use.Units(tax.AtMostPer), UnitName(tax.AtMostPer), most, "capped");
                amount = quantity * price;
            }

            Percentages.Add(new(tax, on, share, plain, cap, limb));
            lines.Add(new(riders ? BillPart.Adjustment : BillPart.Tax, tax.Name, quantity, unit, price, plan.Rounding.Line(amount))
            {
                Place = tax.Place,
                IsPercentage = true,
                Rule = rule,
            });
        }
    }

    private void AddBank(long paidOutMicroKwh)
    {
        if (plan.Export is not { } export)
        {
            return;
        }

        if (paidOutMicroKwh != 0)
        {
            Add(BillPart.ExportCredit, "Banked energy paid out", PeriodUse.Kwh(paidOutMicroKwh), "kWh", -export.PayOutPerKwh, export.Place, "the bank is settled");
        }

        if (export.Kind != ExportKind.NetBilling || export.CreditUse == CreditUse.ThisBill)
        {
            return;
        }

        var earned = -lines.Where(l => l.Part == BillPart.ExportCredit).Sum(l => l.Amount);
        var due = Math.Max(0, lines.Where(l => export.Offsets.Contains(l.Part)).Sum(l => l.Amount));
        var usable = carried.CreditBank + (export.CreditUse == CreditUse.BankThisBill ? earned : 0);
        var used = Math.Min(usable, due);
        CreditBeyondDue = usable - due;
        AddAmount("Export credit banked", earned - used, export.Place, "credit earned less credit used");
        carried.CreditBank += earned - used;
        if (Settlement.IsIn(plan, use.Period, export.SettlementMonth))
        {
            AddAmount("Export credit paid out", -carried.CreditBank * export.PayOutPercent / PercentUnit, export.Place, "the bank is settled");
            carried.CreditBank = 0;
        }
    }

    private void AddAmount(string name, decimal amount, DocumentPlace? place, string rule)
    {
        if (amount != 0)
        {
            Add(BillPart.ExportCredit, name, 1, "bill", amount, place, rule);
        }
    }

    private void Add(BillPart part, string name, decimal quantity, string unit, decimal price, DocumentPlace? place, string rule, string? charge = null) =>
        lines.Add(new(part, name, quantity, unit, price, plan.Rounding.Line(quantity * price)) { Place = place, Rule = rule, Charge = charge ?? name });

    private BillStatement Rounded()
    {
        var sum = lines.Sum(l => l.Amount);
        var total = plan.Rounding.Total(sum);
        if (total != sum)
        {
            lines.Add(new(BillPart.Rounding, "Rounding of the total", 1, "bill", total - sum, total - sum) { Rule = "the total is rounded" });
        }

        return new(use.Period.Start, use.Period.End, use.TotalDays, use.TotalKwh, lines, total);
    }

    private static string UnitName(ChargeUnit unit) => unit switch
    {
        ChargeUnit.Day => "day",
        ChargeUnit.Year => "year",
        ChargeUnit.BillingPeriod => "bill",
        ChargeUnit.KilowattHour => "kWh",
        _ => "month",
    };

    private static string UnitRule(ChargeUnit unit) => unit switch
    {
        ChargeUnit.Day => "days x amount",
        ChargeUnit.BillingPeriod => "once in a billing period",
        _ => "months by the plan's proration x amount",
    };
}
