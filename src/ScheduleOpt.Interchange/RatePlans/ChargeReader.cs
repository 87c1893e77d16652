using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads the charges of a rate plan.</summary>
internal sealed class ChargeReader(RateCalendar calendar)
{
    // Rupees and yen need two digits before the point.
    private const decimal LeastPrice = -5, MostPrice = 100, MostAmount = 100_000, MostKwh = 1_000_000;

    private static readonly Dictionary<string, ChargeUnit> Units = new() { ["month"] = ChargeUnit.Month, ["day"] = ChargeUnit.Day };

    private static readonly Dictionary<string, BillPart> Parts = new()
    {
        ["customerCharge"] = BillPart.CustomerCharge,
        ["energyCharge"] = BillPart.EnergyCharge,
        ["demandCharge"] = BillPart.DemandCharge,
        ["adjustment"] = BillPart.Adjustment,
        ["minimumBill"] = BillPart.MinimumBill,
    };

    private static readonly Dictionary<string, RoundingScope> Scopes = new() { ["line"] = RoundingScope.Line, ["bill"] = RoundingScope.Bill };

    private static readonly Dictionary<string, RoundingMode> Modes = new() { ["halfUp"] = RoundingMode.HalfUp, ["halfEven"] = RoundingMode.HalfEven };

    private static readonly Dictionary<string, ProrationRule> Rules = new()
    {
        ["none"] = ProrationRule.None,
        ["thirtyDays"] = ProrationRule.ThirtyDays,
        ["averageMonth"] = ProrationRule.AverageMonth,
        ["daysInMonth"] = ProrationRule.DaysInMonth,
    };

    private readonly string[] seasons = [.. calendar.Seasons.Select(s => s.Name)];
    private readonly string[] periods = [.. calendar.Periods];

    public static CustomerCharge Customer(Field field)
    {
        field.IsObject();
        var charge = new CustomerCharge(field["name"].Text(80), field["amount"].Number(-MostAmount, MostAmount, ""), field["per"].OneOf(Units));
        field.RefuseOthers();
        return charge;
    }

    public EnergyCharge Energy(Field field)
    {
        field.IsObject();
        var flat = field["pricePerKwh"];
        var blocks = field["blocks"];
        if (flat.Exists == blocks.Exists)
        {
            field.Fault("It must have either pricePerKwh or blocks.", flat.Exists ? "both" : "neither");
        }

        var charge = new EnergyCharge
        {
            Name = field["name"].Text(80),
            Seasons = field["seasons"].Names(seasons, "seasons"),
            Periods = field["periods"].Names(periods, "periods"),
            From = field["from"].OptionalDate(),
            Until = field["until"].OptionalDate(),
            Blocks = flat.Exists ? [new(null, Price(flat))] : [.. blocks.List(1, 20, required: false).Select(BlockOf)],
            LimitPer = blocks.Exists ? field["limitPer"].OneOf(Units) : ChargeUnit.Month,
            LimitInWholeKwh = blocks.Exists && field["limitInWholeKwh"].YesOrNo(),
        };
        field.RefuseOthers();
        return charge;
    }

    public DemandCharge Demand(Field field)
    {
        field.IsObject();
        var charge = new DemandCharge(
            field["name"].Text(80),
            field["pricePerKw"].Number(0, 1000, "per kW"),
            Averaging(field["averagingMinutes"]),
            field["seasons"].Names(seasons, "seasons"),
            field["periods"].Names(periods, "periods"));
        field.RefuseOthers();
        return charge;
    }

    public static MinimumBill? Minimum(Field field)
    {
        if (!field.Exists || !field.IsObject())
        {
            return null;
        }

        var minimum = new MinimumBill(
            field["amount"].Number(0, MostAmount, ""),
            field["per"].OneOf(Units),
            [.. field["counts"].List(1, 4).Select(p => p.OneOf(Parts))]);
        if (minimum.Counts.Contains(BillPart.MinimumBill))
        {
            field["counts"].Fault("A minimum bill can't count itself.");
        }

        field.RefuseOthers();
        return minimum;
    }

    public static IReadOnlyList<Tax> Taxes(Field field)
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

            var on = element["on"];
            on.IsObject();
            var parts = on["parts"].List(0, 5, required: false).Select(p => p.OneOf(Parts)).ToArray();
            var earlier = on["taxes"].Names([.. taxes.Select(t => t.Name)], "taxes before it");
            if (parts.Length + earlier.Count == 0)
            {
                on.Fault("It must name at least one part or earlier tax.", "none");
            }

            taxes.Add(new(name, element["percent"].Number(-100, 100, "%"), parts, earlier));
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

    private Block BlockOf(Field field)
    {
        field.IsObject();
        var limit = field["upToKwh"].Exists ? field["upToKwh"].Number(0.001m, MostKwh, "kWh") : (decimal?)null;
        var price = field["pricePerKwh"];
        Block block;
        if (price.Node is { Kind: NodeKind.Object })
        {
            var byPeriod = new Dictionary<string, decimal>();
            foreach (var (name, member) in price.FreeMembers())
            {
                if (!periods.Contains(name))
                {
                    member.Fault($"It must name one of the periods: {string.Join(", ", periods)}.", name);
                }

                byPeriod[name] = Price(member);
            }

            foreach (var missing in periods.Where(p => !byPeriod.ContainsKey(p)))
            {
                price.Fault("It must have a price for each period.", $"none for {missing}");
            }

            block = new(limit, 0, byPeriod);
        }
        else
        {
            block = new(limit, Price(price));
        }

        field.RefuseOthers();
        return block;
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

    private static decimal Price(Field field) => field.Number(LeastPrice, MostPrice, "per kWh");
}
