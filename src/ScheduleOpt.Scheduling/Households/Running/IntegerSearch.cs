using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Integers before each car's second departure, where rounding the linear programme is not good enough.</summary>
internal static class IntegerSearch
{
    /// <summary>Looks for a better schedule; gives the bound proven and whether a limit stopped it.</summary>
    public static (double Bound, bool LimitReached) Improve(RunnableSearch search, HouseholdRelaxation relaxation, ShortfallOrder order, SolveLimit limit)
    {
        var model = relaxation.Grid.Model;
        var grid = Segments.Of(model, from: model.Cars.Max(c => c.IntegersUntil));
        var plan = OnOffPlan.Integers(grid);
        var held = relaxation.Shortfalls;
        var found = StrictOrder.Integers(plan, held, order, limit, search.Best!.Powers);
        var proven = relaxation.Bound;
        if (!found.IsSolved && search.Best.Shortfalls.Compare(held, model, order) > 0)
        {
            // Under the rules of running more goes unmet: no more than the best known, at the least cost.
            held = search.Best.Shortfalls;
            found = StrictOrder.Integers(plan, held, order, limit, search.Best.Powers);
        }

        if (!found.IsSolved)
        {
            return (proven, found.LimitReached);
        }

        search.TryIntegers(grid, found.Powers);

        return (Math.Max(proven, Math.Min(found.Bound, search.Best.Objective)), found.LimitReached);
    }
}
