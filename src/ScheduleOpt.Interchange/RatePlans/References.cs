using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Checks names by which parts of a plan refer to each other, once all of it is read.</summary>
internal static class References
{
    public static void Check(Field root, RatePlan plan)
    {
        string[] demands = [.. plan.DemandCharges.Select(d => d.Name)];
        string[] allowances = [.. plan.Allowances.Select(a => a.Name)];
        var sections = new[] { (root["energyCharges"], plan.EnergyCharges), (root["adjustments"], plan.Adjustments) };
        foreach (var (section, charges) in sections)
        {
            foreach (var (element, charge) in section.Node is { Kind: NodeKind.List } ? section.Elements.Zip(charges) : [])
            {
                Known(element["limitDemand"], charge.LimitDemand, demands, "demandCharges");
                Known(element["allowance"], charge.Allowance, allowances, "allowances");
            }
        }

        foreach (var (element, charge) in root["demandCharges"].Elements.Zip(plan.DemandCharges))
        {
            Known(element["ratchet"]["of"], charge.Ratchet?.Of, demands, "demandCharges");
        }

        if (plan.HousePlan is not null && plan.Metering == Metering.WholeHouse)
        {
            root["housePlan"].Fault("Only a plan for the car's own meter leaves the house on another plan.");
        }
    }

    private static void Known(Field field, string? name, string[] known, string of)
    {
        if (name is { Length: > 0 } && !known.Contains(name))
        {
            field.Fault($"It must name one of the {of}: {string.Join(", ", known.DefaultIfEmpty("none"))}.");
        }
    }
}
