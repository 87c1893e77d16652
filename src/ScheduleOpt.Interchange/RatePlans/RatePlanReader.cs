using NodaTime;
using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads the fields of a rate plan.</summary>
internal static class RatePlanReader
{
    // Use is sorted by these dates, seasons and periods at once: five years of monthly adjustments, and room.
    private const int MostDates = 130;

    private static readonly Dictionary<string, Metering> Meterings = new()
    {
        ["wholeHouse"] = Metering.WholeHouse,
        ["separateMeter"] = Metering.SeparateMeter,
        ["submeter"] = Metering.Submeter,
    };

    private static readonly Dictionary<string, BillingMonthDay> BillingMonths = new()
    {
        ["firstDay"] = BillingMonthDay.FirstDay,
        ["lastDay"] = BillingMonthDay.LastDay,
        ["readingDate"] = BillingMonthDay.ReadingDate,
    };

    public static RatePlan Read(Field root, string id)
    {
        var options = ConditionReader.Options(root["options"]);
        var calendar = CalendarReader.Read(root, options);
        var scopes = new ScopeReader(
            calendar, CalendarReader.Others(root["calendars"], calendar, options), options, [.. root["billingSeasons"].List(1, 12, required: false).Select(BillingSeasonOf)]);
        var charges = new ChargeReader(scopes);
        var effective = root["effective"];
        var events = EventReader.Events(root["events"], scopes);
        var plan = new RatePlan
        {
            Id = id,
            Name = root["name"].Text(100),
            Utility = root["utility"].Text(100),
            Description = root["description"].Text(2000, ""),
            Source = root["source"].Text(500),
            Currency = Currency(root["currency"]),
            Metering = root["metering"].OneOf(Meterings),
            HousePlan = root["housePlan"].Exists ? root["housePlan"].Text(100) : null,
            Eligibility = root["eligibility"].Text(2000, ""),
            ServiceKw = root["serviceKw"].Exists ? root["serviceKw"].Number(0.1m, 10_000, "kW") : 1,
            EffectiveFrom = effective.IsObject() ? effective["from"].Date() : default,
            EffectiveUntil = effective["until"].OptionalDate(),
            Options = options,
            Allowances = ConditionReader.Allowances(root["allowances"], [.. calendar.Seasons.Select(s => s.Name)], options),
            Calendar = calendar,
            Calendars = scopes.Others,
            BillingSeasons = scopes.BillingSeasons,
            BillingMonthDay = root["billingMonth"].OneOf(BillingMonths, BillingMonthDay.LastDay, required: false),
            Events = events,
            CustomerCharges = [.. root["customerCharges"].List(0, 20).Select(charges.Customer)],
            EnergyCharges = [.. root["energyCharges"].List(1, 100).Select(c => charges.Energy(c, mayHaveLayer: true))],
            Adjustments = [.. root["adjustments"].List(0, 100, required: false).Select(c => charges.Energy(c))],
            DemandCharges = [.. root["demandCharges"].List(0, 20, required: false).Select(c => DemandReader.Read(c, scopes))],
            Credits = [.. root["credits"].List(1, 40, required: false).Select(charges.Credit)],
            Rebates = EventReader.Rebates(root["rebates"], scopes, events),
            Export = BillRulesReader.Export(root["export"], charges),
            Rounding = BillRulesReader.Rounding(root["rounding"]),
            Proration = BillRulesReader.Proration(root["proration"]),
        };
        var names = NamesOf(plan);
        plan = plan with
        {
            MinimumBill = BillRulesReader.Minimum(root["minimumBill"], names),
            Taxes = BillRulesReader.Taxes(root["taxes"], names, [.. plan.EnergyCharges.Select(c => c.Layer).Distinct()], options),
        };
        References.Check(root, plan);
        if (plan.EffectiveUntil < plan.EffectiveFrom)
        {
            effective["until"].Fault("A rate plan must not end before it begins.");
        }

        if (plan.EnergyCharges.Concat<Scope>(plan.Adjustments).Concat(plan.CustomerCharges).Concat(plan.DemandCharges).Concat(plan.Credits)
                .Concat(plan.Export?.Prices ?? []).SelectMany(c => new[] { c.From, c.Until }).Distinct().Count() > MostDates)
        {
            root.Fault($"Charges must begin and end on at most {MostDates} different dates.");
        }

        effective.RefuseOthers();
        root.RefuseOthers();
        return plan;
    }

    private static string[] NamesOf(RatePlan plan) =>
    [
        .. plan.CustomerCharges.Select(c => c.Name)
            .Concat(plan.EnergyCharges.Concat(plan.Adjustments).Concat(plan.Export?.Prices ?? []).Select(c => c.Name))
            .Concat(plan.DemandCharges.Select(c => c.Name))
            .Concat(plan.Credits.Select(c => c.Name))
            .Concat(plan.Rebates.Select(r => r.Name))
            .Where(n => n.Length > 0).Distinct(),
    ];

    private static BillingSeason BillingSeasonOf(Field field)
    {
        field.IsObject();
        var season = new BillingSeason(field["name"].Text(40), [.. field["months"].List(1, 12).Select(m => m.Whole(1, 12, ""))]);
        field.RefuseOthers();
        return season;
    }

    private static string Currency(Field field)
    {
        var code = field.Text(3);
        if (code.Length > 0 && (code.Length != 3 || !code.All(char.IsAsciiLetterUpper)))
        {
            field.Fault("It must be an ISO 4217 code of three capital letters.");
        }

        return code;
    }
}
