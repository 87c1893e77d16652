namespace ScheduleOpt.Core.Homes.Panels;

/// <summary>Estimates from a list of loads whether an existing dwelling's service has room for a charging unit.</summary>
/// <remarks>Only steps whose source we have: the values that the code assigns to lighting and small-appliance circuits are the list's business.</remarks>
public static class LoadListCheck
{
    /// <summary>The rule.</summary>
    /// <remarks>Whether the charging unit may take the 40 % is disputed among the trade: it counts in full.</remarks>
    public const string Method =
        "NFPA 70 (NEC), 220.83, optional method for an existing dwelling: the first 8 kVA at 100 %, the rest at 40 %, new heating or cooling at 100 %, "
        + "and the charging unit (at least 7,200 VA, 220.57) at 100 %, against the rating of the service";

    private const double FirstKva = 8;
    private const double RestFactor = 0.4;
    private const double MostKva = 100;

    /// <summary>Makes the estimate, or says why the list can't decide.</summary>
    public static PanelEstimate Of(ElectricalService service, IReadOnlyList<PanelLoad> loads, ChargingLoad load)
    {
        ArgumentNullException.ThrowIfNull(service);
        ArgumentNullException.ThrowIfNull(loads);
        ArgumentNullException.ThrowIfNull(load);
        var refused = Refusals(loads).ToArray();
        if (refused.Length > 0)
        {
            return PanelEstimate.Undecided(service, Method, refused);
        }

        var house = loads.Where(l => l.Kind != PanelLoadKind.NewHeatingOrCooling).Sum(l => l.Kva);
        var added = loads.Where(l => l.Kind == PanelLoadKind.NewHeatingOrCooling).Sum(l => l.Kva);
        var counted = Math.Min(house, FirstKva) + (RestFactor * Math.Max(0, house - FirstKva)) + added;
        return PanelEstimate.Of(
            service, Method, counted, load, 1, ["The list is taken as complete; lighting and small-appliance circuits count as it states them."]);
    }

    private static IEnumerable<string> Refusals(IReadOnlyList<PanelLoad> loads)
    {
        if (!loads.Any(l => l.Kind == PanelLoadKind.General && l.Kva > 0))
        {
            yield return "The list holds no general lighting and receptacles: it can't be complete.";
        }

        foreach (var load in loads.Where(l => l.Kva is not (>= 0 and <= MostKva)))
        {
            yield return $"{load.Name} must have 0 to 100 kVA.";
        }
    }
}
