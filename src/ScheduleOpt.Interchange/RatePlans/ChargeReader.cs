using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads the charges of a rate plan.</summary>
internal sealed class ChargeReader(ScopeReader scopes)
{
    // Rupees and yen need two digits before the point.
    private const decimal LeastPrice = -5, MostPrice = 100, MostAmount = 100_000, MostKwh = 1_000_000;

    internal static readonly Dictionary<string, ChargeUnit> Units = new()
    {
        ["month"] = ChargeUnit.Month,
        ["day"] = ChargeUnit.Day,
        ["year"] = ChargeUnit.Year,
        ["billingPeriod"] = ChargeUnit.BillingPeriod,
    };

    private static readonly Dictionary<string, ChargeUnit> CreditUnits = new(Units) { ["kwh"] = ChargeUnit.KilowattHour };

    private static readonly Dictionary<string, ChargeUnit> LimitUnits = new()
    {
        ["month"] = ChargeUnit.Month,
        ["day"] = ChargeUnit.Day,
        ["thirtyDays"] = ChargeUnit.ThirtyDays,
        ["billingPeriod"] = ChargeUnit.BillingPeriod,
    };

    private static readonly Dictionary<string, bool> Fills = new() { ["inProportion"] = false, ["inTimeOrder"] = true };

    private static readonly Dictionary<string, MissingPrice> Missing = new()
    {
        ["refuse"] = MissingPrice.Refuse,
        ["previous"] = MissingPrice.Previous,
        ["dayBefore"] = MissingPrice.DayBefore,
        ["price"] = MissingPrice.Stated,
    };

    public CustomerCharge Customer(Field field)
    {
        field.IsObject();
        var charge = new CustomerCharge(field["name"].Text(80), field["amount"].Number(-MostAmount, MostAmount, ""), field["per"].OneOf(Units))
        {
            PerServiceKw = field["perServiceKw"].YesOrNo(),
            UseBand = Band(field["useBand"]),
        };
        charge = scopes.Scoped(field, charge, byPeriod: false);
        field.RefuseOthers();
        return charge;
    }

    public Credit Credit(Field field)
    {
        field.IsObject();
        var credit = new Credit(field["name"].Text(80), field["amount"].Number(0, MostAmount, ""), field["per"].OneOf(CreditUnits)) { UseBand = Band(field["useBand"]) };
        credit = scopes.Scoped(field, credit);
        field.RefuseOthers();
        return credit;
    }

    /// <summary>An energy charge, an adjustment or an export price.</summary>
    public EnergyCharge Energy(Field field, bool isExport = false, bool mayHaveLayer = false)
    {
        field.IsObject();
        Field flat = field["pricePerKwh"], hourly = field["hourlyPrice"], blocks = field["blocks"];
        var kinds = (flat.Exists ? 1 : 0) + (hourly.Exists ? 1 : 0) + (blocks.Exists ? 1 : 0);
        if (kinds != 1)
        {
            field.Fault("It must have one of pricePerKwh, hourlyPrice and blocks.", kinds == 0 ? "none" : $"{kinds} of them");
        }

        // Faults of the calendar's name are noted with the scope.
        var calendar = field["calendar"].Node is { } named && scopes.Others.TryGetValue(named.Text, out var other) ? other : scopes.Own;
        Field[] fields = [.. blocks.List(1, 20, required: false)];
        Block[] read = [.. fields.Select(b => isExport ? ExportBlockOf(b) : BlockOf(b, calendar.Periods))];
        var charge = new EnergyCharge
        {
            Name = field["name"].Text(80),
            Layer = mayHaveLayer && field["layer"].Exists ? field["layer"].Text(40) : EnergyCharge.DefaultLayer,
            Blocks = blocks.Exists ? read : [new(null, flat.Exists ? Price(flat) : 0)],
            Hourly = hourly.Exists ? Hourly(hourly) : null,
            LossFactor = field["lossFactor"].Exists ? field["lossFactor"].Number(0.5m, 2, "") : 1,
        };
        charge = scopes.Scoped(field, !blocks.Exists ? charge : isExport ? WithLimitUnit(field, charge) : WithLimits(field, charge));
        AddMissingPrices(fields, read, charge.Periods.Count > 0 ? charge.Periods : calendar.Periods);
        field.RefuseOthers();
        return charge;
    }

    public static UseBand? Band(Field field)
    {
        if (!field.Exists || !field.IsObject())
        {
            return null;
        }

        Field over = field["overKwh"], upTo = field["upToKwh"];
        var band = new UseBand(over.Exists ? over.Number(0, MostKwh, "kWh") : null, upTo.Exists ? upTo.Number(0, MostKwh, "kWh") : null);
        if (!over.Exists && !upTo.Exists)
        {
            field.Fault("It must have overKwh, upToKwh or both.", "neither");
        }
        else if (band.OverKwh >= band.UpToKwh)
        {
            upTo.Fault("It must be more than overKwh.");
        }

        field.RefuseOthers();
        return band;
    }

    private static EnergyCharge WithLimits(Field field, EnergyCharge charge)
    {
        var (allowance, demand) = (field["allowance"], field["limitDemand"]);
        if (charge.Blocks.Any(b => b.UpToKwhPerKw is not null) && !demand.Exists)
        {
            demand.Fault("A charge with upToKwhPerKw must name the demand charge.");
        }

        return WithLimitUnit(field, charge) with
        {
            Allowance = allowance.Exists ? allowance.Text(40) : null,
            LimitDemand = demand.Exists ? demand.Text(80) : null,
            WholeUse = field["wholeUse"].YesOrNo(),
            FillsInTimeOrder = field["fill"].OneOf(Fills, false, required: false),
        };
    }

    private static EnergyCharge WithLimitUnit(Field field, EnergyCharge charge)
    {
        var scaled = charge.Blocks.Any(b => b.UpToKwh is not null || b.UpToAllowance is not null);
        return charge with
        {
            LimitPer = scaled || field["limitPer"].Exists ? field["limitPer"].OneOf(LimitUnits) : ChargeUnit.Month,
            LimitInWholeKwh = field["limitInWholeKwh"].YesOrNo(),
        };
    }

    private static HourlyPrice Hourly(Field field)
    {
        field.IsObject();
        Field multiplier = field["multiplier"], adder = field["adder"], least = field["atLeast"], most = field["atMost"], stated = field["missingPrice"];
        var hourly = new HourlyPrice(field["series"].Text(40), field["missing"].OneOf(Missing))
        {
            Multiplier = multiplier.Exists ? multiplier.Number(-10, 10, "") : 1,
            Adder = adder.Exists ? Price(adder) : 0,
            AtLeast = least.Exists ? Price(least) : null,
            AtMost = most.Exists ? Price(most) : null,
            MissingAt = stated.Exists ? Price(stated) : 0,
        };
        if (hourly.AtLeast > hourly.AtMost)
        {
            most.Fault("It must not be less than atLeast.");
        }

        if (stated.Exists != (hourly.Missing == MissingPrice.Stated) && field["missing"].Exists)
        {
            stated.Fault("missingPrice must stand where missing is price, and only there.", stated.Exists ? null : "none");
        }

        field.RefuseOthers();
        return hourly;
    }

    private static Block BlockOf(Field field, IReadOnlyList<string> periods)
    {
        field.IsObject();
        Field limit = field["upToKwh"], share = field["upToAllowance"], perKw = field["upToKwhPerKw"], price = field["pricePerKwh"];
        var block = new Block(limit.Exists ? limit.Number(0.001m, MostKwh, "kWh") : null, 0)
        {
            UpToAllowance = share.Exists ? share.Number(0.01m, 100, "") : null,
            UpToKwhPerKw = perKw.Exists ? perKw.Number(0.01m, 10_000, "kWh/kW") : null,
        };
        block = price.Node is { Kind: NodeKind.Object } ? block with { PriceByPeriod = ByPeriod(price, periods) } : block with { PricePerKwh = Price(price) };
        field.RefuseOthers();
        return block;
    }

    private static Block ExportBlockOf(Field field)
    {
        field.IsObject();
        var limit = field["upToKwh"];
        var block = new Block(limit.Exists ? limit.Number(0.001m, MostKwh, "kWh") : null, Price(field["pricePerKwh"]));
        field.RefuseOthers();
        return block;
    }

    private static Dictionary<string, decimal> ByPeriod(Field price, IReadOnlyList<string> periods)
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

        return byPeriod;
    }

    private static void AddMissingPrices(Field[] fields, Block[] blocks, IReadOnlyList<string> covered)
    {
        foreach (var (field, block) in fields.Zip(blocks))
        {
            foreach (var missing in covered.Where(p => block.PriceByPeriod?.ContainsKey(p) == false))
            {
                field["pricePerKwh"].Fault("It must have a price for each period that the charge covers.", $"none for {missing}");
            }
        }
    }

    private static decimal Price(Field field) => field.Number(LeastPrice, MostPrice, "per kWh");
}
