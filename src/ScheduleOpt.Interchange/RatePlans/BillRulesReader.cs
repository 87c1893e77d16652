using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Choices;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads what stands after the charges: export, minimum bill, percentages, rounding, proration.</summary>
internal static class BillRulesReader
{
    private const decimal MostAmount = 100_000;

    private static readonly Dictionary<string, BillPart> ChargeParts = new()
    {
        ["customerCharge"] = BillPart.CustomerCharge,
        ["energyCharge"] = BillPart.EnergyCharge,
        ["demandCharge"] = BillPart.DemandCharge,
        ["adjustment"] = BillPart.Adjustment,
        ["credit"] = BillPart.Credit,
    };

    private static readonly Dictionary<string, BillPart> MinimumParts = new(ChargeParts)
    {
        ["exportCredit"] = BillPart.ExportCredit,
        ["tax"] = BillPart.Tax,
    };

    private static readonly Dictionary<string, BillPart> TaxParts = new(ChargeParts)
    {
        ["exportCredit"] = BillPart.ExportCredit,
        ["minimumBill"] = BillPart.MinimumBill,
    };

    private static readonly Dictionary<string, BillPart> OffsetParts = new(ChargeParts)
    {
        ["minimumBill"] = BillPart.MinimumBill,
        ["tax"] = BillPart.Tax,
    };

    private static readonly Dictionary<string, bool> Stages = new() { ["beforeTaxes"] = false, ["afterTaxes"] = true };

    private static readonly Dictionary<string, bool> Kinds = new() { ["tax"] = false, ["adjustment"] = true };

    private static readonly Dictionary<string, RoundingScope> Scopes = new() { ["line"] = RoundingScope.Line, ["bill"] = RoundingScope.Bill };

    private static readonly Dictionary<string, RoundingMode> Modes = new() { ["halfUp"] = RoundingMode.HalfUp, ["halfEven"] = RoundingMode.HalfEven };

    private static readonly Dictionary<string, ProrationRule> Rules = new()
    {
        ["none"] = ProrationRule.None,
        ["thirtyDays"] = ProrationRule.ThirtyDays,
        ["averageMonth"] = ProrationRule.AverageMonth,
        ["daysInMonth"] = ProrationRule.DaysInMonth,
        ["wholeMonths"] = ProrationRule.WholeMonths,
    };

    private static readonly Dictionary<string, ExportKind> ExportKinds = new()
    {
        ["netMetering"] = ExportKind.NetMetering,
        ["netBilling"] = ExportKind.NetBilling,
    };

    private static readonly Dictionary<string, CreditUse> CreditUses = new()
    {
        ["thisBill"] = CreditUse.ThisBill,
        ["bankThisBill"] = CreditUse.BankThisBill,
        ["bankNextBill"] = CreditUse.BankNextBill,
    };

    private static readonly Dictionary<string, bool> Banks = new() { ["pool"] = false, ["period"] = true };

    public static ExportRule? Export(Field field, ChargeReader charges)
    {
        if (!field.Exists || !field.IsObject())
        {
            return null;
        }

        var kind = field["kind"].OneOf(ExportKinds);
        Field minutes = field["nettingMinutes"], settlement = field["settlementMonth"];
        var rule = new ExportRule(kind)
        {
            NettingMinutes = minutes.Exists ? Netting(minutes) : null,
            SettlementMonth = settlement.Exists ? settlement.Whole(1, 12, "") : null,
            Place = field.Place,
        };
        if (kind == ExportKind.NetMetering)
        {
            var payOut = field["payOutPerKwh"];
            rule = rule with
            {
                BankByPeriod = field["bankBy"].OneOf(Banks, false, required: false),
                PayOutPerKwh = payOut.Exists ? payOut.Number(0, 100, "per kWh") : 0,
            };
        }
        else
        {
            var payOut = field["payOutPercent"];
            BillPart[] offsets = [.. field["offsets"].List(1, 8, required: false).Select(p => p.OneOf(OffsetParts))];
            RefuseTwice(field["offsets"], offsets);
            rule = rule with
            {
                Prices = [.. field["prices"].List(0, 100).Select(p => charges.Energy(p, isExport: true))],
                CreditUse = field["creditUse"].OneOf(CreditUses, CreditUse.ThisBill, required: false),
                Offsets = offsets.Length > 0 ? offsets : [.. OffsetParts.Values],
                PayOutPercent = payOut.Exists ? payOut.Number(0, 100, "%") : 0,
            };
        }

        field.RefuseOthers();
        return rule;
    }

    public static MinimumBill? Minimum(Field field, string[] charges)
    {
        if (!field.Exists || !field.IsObject())
        {
            return null;
        }

        BillPart[] counts = [.. field["counts"].List(1, 7).Select(p => p.OneOf(MinimumParts))];
        RefuseTwice(field["counts"], counts);
        var minimum = new MinimumBill(field["amount"].Number(0, MostAmount, ""), field["per"].OneOf(ChargeReader.Units), counts)
        {
            Charges = field["charges"].Names(charges, "charges"),
            AfterTaxes = field["stage"].OneOf(Stages, false, required: false),
            Place = field.Place,
        };
        if (!minimum.AfterTaxes && counts.Contains(BillPart.Tax))
        {
            field["counts"].Fault("tax can count only where stage is afterTaxes.", "tax");
        }

        field.RefuseOthers();
        return minimum;
    }

    public static IReadOnlyList<Tax> Taxes(Field field, string[] charges, string[] layers, IReadOnlyList<HouseholdOption> options)
    {
        var taxes = new List<Tax>();
        foreach (var element in field.List(0, 20, required: false))
        {
            element.IsObject();
            var name = element["name"].Text(80);
            if (taxes.Any(t => t.Name == name))
            {
                element["name"].Fault("Each tax must have a name of its own.");
            }

            var isRider = element["as"].OneOf(Kinds, false, required: false);
            var on = element["on"];
            on.IsObject();
            var parts = on["parts"].List(0, 7, required: false).Select(p => p.OneOf(TaxParts)).ToArray();
            // Riders are worked out before taxes: the one may be on the other, not the other way round.
            var earlier = on["taxes"].Names([.. taxes.Where(t => t.IsRider || !isRider).Select(t => t.Name)], "percentages worked out before it");
            var named = on["charges"].Names(charges, "charges");
            var onLayers = on["layers"].Names(layers, "layers");
            if (parts.Length + earlier.Count + named.Count + onLayers.Count == 0)
            {
                on.Fault("It must name at least one part, charge, layer or earlier percentage.", "none");
            }

            Field perKwh = element["orPerKwh"], most = element["atMost"];
            var tax = new Tax(name, element["percent"].Number(-100, 100, "%"), parts, earlier)
            {
                When = ConditionReader.Read(element["when"], options),
                Charges = named,
                Layers = onLayers,
                IsRider = isRider,
                GrossUp = element["grossUp"].YesOrNo(),
                OrPerKwh = perKwh.Exists ? perKwh.Number(0, 100, "per kWh") : null,
                AtMost = most.Exists && most.IsObject() ? most["amount"].Number(0, MostAmount, "") : null,
                AtMostPer = most.Exists ? most["per"].OneOf(ChargeReader.Units) : ChargeUnit.BillingPeriod,
                From = element["from"].OptionalDate(),
                Until = element["until"].OptionalDate(),
                Place = element.Place,
            };
            if (tax is { GrossUp: true, Percent: > 50 })
            {
                element["percent"].Fault("A percentage that is grossed up must be at most 50 %.");
            }

            if (tax.From > tax.Until)
            {
                element["until"].Fault("It must not end before it begins.");
            }

            taxes.Add(tax);
            most.RefuseOthers();
            on.RefuseOthers();
            element.RefuseOthers();
        }

        return taxes;
    }

    public static Rounding Rounding(Field field)
    {
        field.IsObject();
        var rounding = new Rounding(
            field["each"].OneOf(Scopes), field["mode"].OneOf(Modes), field["decimals"].Exists ? field["decimals"].Whole(0, 4, "") : 2);
        field.RefuseOthers();
        return rounding;
    }

    public static Proration Proration(Field field)
    {
        field.IsObject();
        var rule = field["month"].OneOf(Rules);
        var whole = field["wholeMonthDays"];
        field.RefuseOthers();
        if (!whole.Exists || !whole.IsObject())
        {
            return new(rule);
        }

        int from = whole["from"].Whole(1, 100, "days"), to = whole["to"].Whole(1, 100, "days");
        if (from > to)
        {
            whole["to"].Fault("It must not be before from.");
        }

        whole.RefuseOthers();
        return new(rule, from, to);
    }

    private static int Netting(Field field)
    {
        var minutes = field.Whole(0, 60, "minutes");
        if (minutes is not (0 or 5 or 10 or 15 or 30 or 60))
        {
            field.Fault("It must be 0, 5, 10, 15, 30 or 60 minutes.");
        }

        return minutes;
    }

    private static void RefuseTwice(Field field, BillPart[] parts)
    {
        if (parts.Distinct().Count() != parts.Length)
        {
            field.Fault("Each part must be named once.");
        }
    }
}
