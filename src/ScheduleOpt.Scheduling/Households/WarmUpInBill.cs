using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>Puts warming before departures where no schedule can change it: into the load, into the use that terms know already, and as a cost of its own.</summary>
/// <remarks>The bill of warming and the bill of charging on top of it add up to the bill of both: blocks go on where warming left them, a peak that
/// warming makes is measured, and what it pays counts towards minimum bills.</remarks>
internal static class WarmUpInBill
{
    /// <summary>The problem with its terms after warming, and what warming costs.</summary>
    /// <param name="problem">The problem; its load has the warming already.</param>
    /// <param name="houseKw">Load of the house without it. [kW]</param>
    /// <param name="warmingKw">Warming of all cars. [kW]</param>
    public static HouseholdProblem Of(HouseholdProblem problem, double[] houseKw, double[] warmingKw)
    {
        var n = problem.Count;
        var (without, import, more) = (new double[n], new double[n], new double[n]);
        for (var i = 0; i < n; i++)
        {
            without[i] = houseKw[i] - problem.SolarKw[i];
            import[i] = Math.Max(0, without[i] + warmingKw[i]);
            more[i] = problem.Hours[i] * (import[i] - Math.Max(0, without[i]));
        }

        var cost = HouseholdBill.Between(problem, problem.Terms, without, warmingKw);
        return problem with
        {
            WarmUpCost = cost.Total,
            WarmUpCarbonCost = cost.Carbon,
            Terms =
            [
                .. problem.Terms.Select(t => t is MinimumTerm least
                    ? least with { Counted = least.Counted + (decimal)cost.Counted[least] }
                    : TermBill.After(t, problem.Boundaries, problem.Hours, import, more)),
            ],
        };
    }
}
