using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads a <c>supply</c>: how power reaches the car.</summary>
internal static class SupplyReader
{
    private static readonly Limits Voltages = new(100, 480, "V") { Whole = true };

    private static readonly (string, SupplyConnection)[] Connections =
        [("receptacle", SupplyConnection.Receptacle), ("hardwired", SupplyConnection.Hardwired)];

    /// <summary>The rules for the continuous rating, by the words of documents.</summary>
    public static readonly (string, ContinuousRatingRule)[] Rules =
    [
        ("unknown", ContinuousRatingRule.Unknown),
        ("necContinuousLoad", ContinuousRatingRule.NecContinuousLoad),
        ("dedicatedCircuit", ContinuousRatingRule.DedicatedCircuit),
        ("domesticSocket", ContinuousRatingRule.DomesticSocket),
    ];

    /// <summary>The word that a document uses for a rule.</summary>
    public static string WordFor(ContinuousRatingRule rule) => Rules.First(r => r.Item2 == rule).Item1;

    /// <summary>Reads a supply.</summary>
    public static Supply? Read(JsonField? field)
    {
        if (field?.Members(
            "voltageV", "phases", "breakerA", "connection", "rule", "statedCurrentA", "unitLimitA", "otherLoadA") is not { } supply)
        {
            return null;
        }

        var before = supply.Faults.Count;
        var voltage = supply.Number("voltageV", Voltages);
        var phases = supply.Number("phases", new(1, 3) { Whole = true }, 1);
        var breaker = supply.Number("breakerA", new(6, 125, "A"));
        var connection = supply.Word("connection", Connections, SupplyConnection.Receptacle);
        var rule = supply.Word("rule", Rules, ContinuousRatingRule.Unknown);
        var stated = supply.Optional("statedCurrentA")?.Number(
            rule == ContinuousRatingRule.DomesticSocket ? new(8, Supply.DomesticSocketA, "A") : new(6, 125, "A"));
        var unit = supply.Optional("unitLimitA")?.Number(new(6, 125, "A"));
        var other = supply.Number("otherLoadA", new(0, 125, "A"), 0);
        if (supply.Faults.Count > before)
        {
            return null;
        }

        CheckTogether(supply, (int)voltage!.Value, (int)phases, breaker!.Value, rule, stated);
        return supply.Faults.Count > before
            ? null
            : new Supply
            {
                VoltageV = (int)voltage.Value,
                Phases = (int)phases,
                BreakerA = breaker.Value,
                Connection = connection,
                Rule = rule,
                StatedCurrentA = stated,
                UnitLimitA = unit,
                OtherLoadA = other,
            };
    }

    private static void CheckTogether(
        JsonMembers supply, int voltage, int phases, double breaker, ContinuousRatingRule rule, double? stated)
    {
        if (!Supply.IsKnown(voltage, phases))
        {
            supply.Faults.Add(
                supply.Pointer("voltageV"),
                "Must be 120, 208, 230 or 240 V with 1 phase, or 400 V with 3 phases.",
                $"{voltage} V, phases {phases}");
        }

        if (stated > breaker)
        {
            supply.Faults.Add(
                supply.Pointer("statedCurrentA"),
                $"Must not be above breakerA, which is {Plain.Number(breaker)} A.",
                Plain.Number(stated.Value));
        }

        if (stated is not null && rule is (ContinuousRatingRule.Unknown or ContinuousRatingRule.NecContinuousLoad))
        {
            supply.Faults.Add(
                supply.Pointer("statedCurrentA"),
                "Is used by the rules dedicatedCircuit and domesticSocket alone; the rule here is 80 % of the breaker. "
                + "For a lower current give unitLimitA.");
        }
    }
}
