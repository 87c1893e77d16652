using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>What every answer says about circuits and bills, in one place.</summary>
public static class Cautions
{
    /// <summary>What a worked-out bill is.</summary>
    public const string BillsAreEstimates = "Bills and costs are estimates; the utility's own bill is what counts.";

    /// <summary>Who decides about circuits.</summary>
    public const string Electrician =
        "Circuits, receptacles, panels and permits are for local codes and a licensed electrician. "
        + "What a panel can carry needs an electrician's calculation.";

    /// <summary>When to stop.</summary>
    public const string WornReceptacle = "A worn or warm receptacle is a reason to stop charging and to have it looked at.";

    /// <summary>The cautions of a schedule for one car or several.</summary>
    public static IReadOnlyList<string> ForSchedule(ScheduleRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        List<string> cautions = [.. request.Cars.Select(c => request.CarsAreListed ? $"{c.Name}: {ContinuousRating(c.Supply)}" : ContinuousRating(c.Supply))];
        if (request.SharedCircuitA is { } most)
        {
            cautions.Add(FormattableString.Invariant($"All cars together are planned within the {most:0.#} A of the circuit that they share."));
        }

        cautions.Add(Electrician);
        if (request.Cars.Any(c => c.Supply.Connection == SupplyConnection.Receptacle))
        {
            cautions.Add(WornReceptacle);
        }

        cautions.Add(BillsAreEstimates);
        return cautions;
    }

    /// <summary>The cautions of a comparison: the continuous rating of each set-up at home, and what holds for all.</summary>
    public static IReadOnlyList<string> ForSetUps(IEnumerable<SetUp> setUps)
    {
        var home = setUps.Where(s => s.Supply is not null).ToArray();
        List<string> cautions = [.. home.Select(s => $"{s.Name}: {ContinuousRating(s.Supply!)}")];
        if (home.Length > 0)
        {
            cautions.Add(Electrician);
        }

        if (home.Any(s => s.Supply!.Connection == SupplyConnection.Receptacle))
        {
            cautions.Add(WornReceptacle);
        }

        cautions.Add(BillsAreEstimates);
        return cautions;
    }

    /// <summary>The continuous rating planned within, with the rule it follows from.</summary>
    public static string ContinuousRating(Supply supply)
    {
        ArgumentNullException.ThrowIfNull(supply);
        var rule = supply.Rule switch
        {
            ContinuousRatingRule.NecContinuousLoad => "80 % of the breaker, NFPA 70 (NEC) 625.42 and 210.20(A)",
            ContinuousRatingRule.DedicatedCircuit when supply.StatedCurrentA is not null =>
                "the current the installer states for the dedicated circuit (IEC 60364-7-722)",
            ContinuousRatingRule.DedicatedCircuit =>
                "80 % of the breaker, because the installer's current for the dedicated circuit is not stated",
            ContinuousRatingRule.DomesticSocket => "a domestic socket, 8 to 10 A",
            _ => "80 % of the breaker, because the region's rule is not known",
        };
        return FormattableString.Invariant(
            $"Charging is a continuous load, planned within the circuit's continuous rating of {supply.ContinuousRatingA:0.#} A ({rule}).");
    }
}
