using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads <c>sharedCircuit</c>: the circuit from which all cars charge.</summary>
internal static class SharedCircuitReader
{
    // 230 V to neutral of 400 V: such a car may stand beside one of three phases.
    private const int PhaseOf400 = 230;

    /// <summary>Reads the current that all cars together may take. [A, per phase]</summary>
    /// <param name="body">The request.</param>
    /// <param name="cars">Its cars that are in order.</param>
    public static double? Read(JsonMembers body, IReadOnlyList<CarRequest> cars)
    {
        if (body.Optional("sharedCircuit") is not { } field || field.Members("currentA", "breakerA", "rule") is not { } circuit)
        {
            return null;
        }

        if (!body.Has("cars"))
        {
            field.Fault("Is used together with cars; the circuit of a single car is its supply.");
        }

        var form = circuit.ExactlyOne("currentA", "breakerA");
        var rule = circuit.Word("rule", SupplyReader.Rules, ContinuousRatingRule.Unknown);
        var amperes = form?.Number(new(6, 125, "A"));
        if (circuit.Has("currentA") && circuit.Has("rule"))
        {
            circuit.Faults.Add(circuit.Pointer("rule"), "Is used together with breakerA; currentA is the current itself.");
        }

        var voltages = cars.Select(c => c.Supply.Phases == 3 ? PhaseOf400 : c.Supply.VoltageV).Distinct().ToArray();
        if (voltages.Length > 1)
        {
            field.Faults.Add(
                field.Pointer, "Cars on one circuit must have the same voltage to neutral or between its wires.", string.Join(" and ", voltages.Select(v => $"{v} V")));
        }

        return amperes is not { } a ? null
            : circuit.Has("currentA") ? a
            : new Supply { VoltageV = PhaseOf400, BreakerA = a, Rule = rule }.ContinuousRatingA;
    }
}
