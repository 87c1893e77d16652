namespace ScheduleOpt.Scheduling.Households;

/// <summary>Finds the least-cost runnable schedule of a household: linear program, runnable schedule, then integers where the gap is too large.</summary>
public static class HouseholdScheduler
{
    /// <summary>Solves a problem. Every problem has an answer: what can't be met shows as a shortfall.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    public static HouseholdSchedule Solve(HouseholdProblem problem, ShortfallOrder order = ShortfallOrder.InTimeOrder)
    {
        ArgumentNullException.ThrowIfNull(problem);
        throw new NotSupportedException($"{order}");
    }
}
