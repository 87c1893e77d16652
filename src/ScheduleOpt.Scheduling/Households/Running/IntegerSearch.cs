using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Integers before each car's second departure, where rounding the linear programme is not good enough.</summary>
internal static class IntegerSearch
{
    private static readonly RoundingStyle[] Styles = [new(0, Early: false, 0), new(1, Early: false, 0)];

    /// <summary>Looks for a better schedule; gives the bound proven and whether a limit stopped it.</summary>
    public static (double Bound, bool LimitReached) Improve(RunnableSearch search, HouseholdRelaxation relaxation, HouseholdModel model, ShortfallOrder order)
    {
        var grid = Segments.Of(model, from: model.Cars.Max(c => c.IntegersUntil));
        var plan = OnOffPlan.Integers(grid);
        var held = relaxation.Shortfalls;
        var found = StrictOrder.Integers(plan, held, order, SolveLimit.Default, search.Best!.Powers);
        var proven = relaxation.Bound;
        if (!found.IsSolved && search.Best.Shortfalls.Compare(held, model, order) > 0)
        {
            // Under the rules of running more goes unmet: no more than the best known, at the least cost.
            held = search.Best.Shortfalls;
            found = StrictOrder.Integers(plan, held, order, SolveLimit.Default, search.Best.Powers);
        }

        if (!found.IsSolved)
        {
            return (proven, found.LimitReached);
        }

        foreach (var style in Styles)
        {
            search.Try(grid, found.Powers, style);
        }

        return (Math.Max(proven, Math.Min(found.Bound, search.Best.Objective)), found.LimitReached);
    }
}
