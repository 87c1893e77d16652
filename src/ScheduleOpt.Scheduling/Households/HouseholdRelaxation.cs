using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>The optimum of the problem without the rules of running: its bound.</summary>
internal sealed record HouseholdRelaxation
{
    public required Segments Grid { get; init; }

    /// <summary>Power and share of each car and segment.</summary>
    public required HouseholdPowers Powers { get; init; }

    /// <summary>What goes unmet, by the strict order.</summary>
    public required HouseholdShortfalls Shortfalls { get; init; }

    /// <summary>Least objective. [currency]</summary>
    public required double Objective { get; init; }

    /// <summary>What is proven; below the objective where a limit stopped the binaries of non-convex terms. [currency]</summary>
    public required double Bound { get; init; }

    /// <summary>Whether a limit stopped it.</summary>
    public required bool LimitReached { get; init; }

    /// <summary>The segments of a programme that decides before a boundary.</summary>
    public Segments Until(int boundary) => Segments.Until(Grid.Model, boundary, Grid.Expanded(Powers));

    /// <summary>Solves it: step 1 by the strict order over all cars, then step 2.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="ignored">Conditions of merging left out, for tests.</param>
    /// <param name="limit">When binaries of non-convex terms are given up; none: <see cref="SolveLimit.Linear"/> of the default.</param>
    public static HouseholdRelaxation Solve(
        HouseholdProblem problem, ShortfallOrder order = ShortfallOrder.InTimeOrder, MergeCondition ignored = MergeCondition.None, SolveLimit? limit = null)
    {
        var model = HouseholdModel.Of(problem);
        return Solve(Segments.Of(model, ignored: ignored), order, limit, stepOneBySweep: ignored == MergeCondition.None);
    }

    /// <summary>The same on given segments.</summary>
    /// <param name="grid">The segments.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="limit">When binaries are given up.</param>
    /// <param name="freeFlows">Whether an interval may import and export in shares: no binaries for it, and a lower bound.</param>
    /// <param name="stepOneBySweep">Whether what each car alone must leave unmet is tried first; without it the programme alone decides.</param>
    public static HouseholdRelaxation Solve(Segments grid, ShortfallOrder order, SolveLimit? limit = null, bool freeFlows = false, bool stepOneBySweep = true)
    {
        var alone = stepOneBySweep && order == ShortfallOrder.InTimeOrder ? ShortfallsAlone.Of(grid.Model) : null;
        var plan = OnOffPlan.Relaxed(grid) with { FreeFlows = freeFlows };
        var within = limit ?? SolveLimit.Default.Linear;
        var answer = alone is not null && AreShortTogether(grid.Model, alone) ? null : StrictOrder.Costs(plan, alone ?? HouseholdShortfalls.None(grid.Model), order, within, room: null);
        answer = answer is { IsSolved: true } ? answer : StrictOrder.ShortfallsFirst(plan, order, within, alone: alone);
        return new()
        {
            Grid = grid,
            Powers = answer.Powers,
            Shortfalls = answer.Shortfalls,
            Objective = answer.Objective,
            Bound = answer.Bound,
            LimitReached = answer.LimitReached || !answer.IsSolved,
        };
    }

    /// <summary>The least cost where more may go unmet than must; minus infinity where nothing is proven. [currency]</summary>
    /// <param name="grid">The segments.</param>
    /// <param name="held">What may go unmet.</param>
    /// <param name="order">Which of it is held one by one.</param>
    public static double BoundWith(Segments grid, HouseholdShortfalls held, ShortfallOrder order) =>
        StrictOrder.Costs(OnOffPlan.Relaxed(grid) with { FreeFlows = true }, held, order, SolveLimit.Default.ToProve, room: 1e-6) is { IsSolved: true } relaxed
            ? relaxed.Bound : double.NegativeInfinity;

    /// <summary>Whether the cars together seem to leave more unmet than each alone: one way of charging does. Then the search for the least begins at once.</summary>
    private static bool AreShortTogether(HouseholdModel model, HouseholdShortfalls alone)
    {
        var cars = model.Problem.Cars;
        if (cars.Count < 2 || model.Limits.Count == 0)
        {
            return false;
        }

        var stored = JointPath.Of(model.Problem).StoredKwh;
        return model.DeparturesInOrder().Any(one =>
            cars[one.Car].Problem.Departures[one.Departure] is var departure
            && departure.RequiredKwh - stored[one.Car][departure.Boundary] > alone.TargetKwh[one.Car][one.Departure] + HouseholdShortfalls.Counts);
    }
}
