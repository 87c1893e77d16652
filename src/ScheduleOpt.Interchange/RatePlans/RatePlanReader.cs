using NodaTime;
using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Calendars;

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

    public static RatePlan Read(Field root, string id)
    {
        var calendar = CalendarReader.Read(root);
        var charges = new ChargeReader(calendar);
        var effective = root["effective"];
        var plan = new RatePlan
        {
            Id = id,
            Name = root["name"].Text(100),
            Utility = root["utility"].Text(100),
            Description = root["description"].Text(2000, ""),
            Source = root["source"].Text(500),
            Currency = Currency(root["currency"]),
            Metering = root["metering"].OneOf(Meterings),
            EffectiveFrom = effective.IsObject() ? effective["from"].Date() : default,
            EffectiveUntil = effective["until"].OptionalDate(),
            Calendar = calendar,
            CustomerCharges = [.. root["customerCharges"].List(0, 20).Select(ChargeReader.Customer)],
            EnergyCharges = [.. root["energyCharges"].List(1, 100).Select(charges.Energy)],
            Adjustments = [.. root["adjustments"].List(0, 100, required: false).Select(charges.Energy)],
            DemandCharges = [.. root["demandCharges"].List(0, 20, required: false).Select(charges.Demand)],
            MinimumBill = ChargeReader.Minimum(root["minimumBill"]),
            Taxes = ChargeReader.Taxes(root["taxes"]),
            Rounding = ChargeReader.Rounding(root["rounding"]),
            Proration = ChargeReader.Proration(root["proration"]),
        };
        if (plan.EffectiveUntil < plan.EffectiveFrom)
        {
            effective["until"].Fault("A rate plan must not end before it begins.");
        }

        if (plan.EnergyCharges.Concat(plan.Adjustments).SelectMany(c => new[] { c.From, c.Until }).Distinct().Count() > MostDates)
        {
            root.Fault($"Energy charges and adjustments must begin and end on at most {MostDates} different dates.");
        }

        effective.RefuseOthers();
        root.RefuseOthers();
        return plan;
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
