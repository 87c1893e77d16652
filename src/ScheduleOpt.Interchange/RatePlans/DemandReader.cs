using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads charges for power.</summary>
internal static class DemandReader
{
    private const decimal MostKw = 1_000_000, MostPrice = 1000;

    private static readonly Dictionary<string, ChargeUnit> Units = new()
    {
        ["billingPeriod"] = ChargeUnit.BillingPeriod,
        ["month"] = ChargeUnit.Month,
        ["day"] = ChargeUnit.Day,
    };

    private static readonly Dictionary<string, bool> Measures = new() { ["highest"] = false, ["meanOfDailyHighest"] = true };

    private static readonly Dictionary<string, KwRounding> Roundings = new()
    {
        ["halfUp"] = KwRounding.HalfUp,
        ["up"] = KwRounding.Up,
        ["down"] = KwRounding.Down,
    };

    public static DemandCharge Read(Field field, ScopeReader scopes)
    {
        field.IsObject();
        Field flat = field["pricePerKw"], blocks = field["blocks"], days = field["days"], decimals = field["kwDecimals"], least = field["minimumKw"];
        if (flat.Exists == blocks.Exists)
        {
            field.Fault("It must have either pricePerKw or blocks.", flat.Exists ? "both" : "neither");
        }

        var charge = new DemandCharge
        {
            Name = field["name"].Text(80),
            Blocks = flat.Exists ? [new(null, flat.Number(0, MostPrice, "per kW"))] : [.. blocks.List(1, 20, required: false).Select(BlockOf)],
            Per = field["per"].OneOf(Units, ChargeUnit.BillingPeriod, required: false),
            AveragingMinutes = Averaging(field["averagingMinutes"]),
            Sliding = field["sliding"].YesOrNo(),
            MeanOfDailyHighest = field["measure"].OneOf(Measures, false, required: false),
            HighestDays = days.Exists ? days.Whole(1, 366, "days") : null,
            KwDecimals = decimals.Exists ? decimals.Whole(0, 3, "") : 6,
            KwRounding = field["kwRounding"].OneOf(Roundings, KwRounding.HalfUp, required: false),
            MinimumKw = least.Exists ? least.Number(0, MostKw, "kW") : 0,
            Ratchet = RatchetOf(field["ratchet"]),
        };
        charge = scopes.Scoped(field, charge);
        field.RefuseOthers();
        return charge;
    }

    private static DemandBlock BlockOf(Field field)
    {
        field.IsObject();
        var limit = field["upToKw"];
        var block = new DemandBlock(limit.Exists ? limit.Number(0.001m, MostKw, "kW") : null, field["pricePerKw"].Number(0, MostPrice, "per kW"));
        field.RefuseOthers();
        return block;
    }

    private static Ratchet? RatchetOf(Field field)
    {
        if (!field.Exists || !field.IsObject())
        {
            return null;
        }

        Field months = field["months"], named = field["inMonths"], of = field["of"];
        if (months.Exists == named.Exists)
        {
            field.Fault("It must have either months or inMonths.", months.Exists ? "both" : "neither");
        }

        var ratchet = new Ratchet(
            field["percent"].Number(1, 100, "%"),
            months.Exists ? months.Whole(1, 24, "months") : null,
            [.. named.List(1, 12, required: false).Select(m => m.Whole(1, 12, ""))],
            of.Exists ? of.Text(80) : null);
        field.RefuseOthers();
        return ratchet;
    }

    private static int Averaging(Field field)
    {
        var minutes = field.Whole(15, 60, "minutes");
        if (minutes is not (15 or 30 or 60))
        {
            field.Fault("It must be 15, 30 or 60 minutes.");
        }

        return minutes;
    }
}
