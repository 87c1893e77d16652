using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>An optimum by the strict order.</summary>
internal sealed record OrderedOptimum(
    HouseholdPowers Powers, HouseholdShortfalls Shortfalls, double Objective, double Bound, bool IsSolved, bool LimitReached)
{
    /// <summary>Whether it was not begun, being too large for what is left of the work.</summary>
    public bool IsTooLarge { get; init; }

    /// <summary>How far peaks lie above what is billed anyway, by term. [kW]</summary>
    public double[] PeaksKw { get; init; } = [];

    /// <summary>In how much of each segment each car is on; by car and segment.</summary>
    public double[][] On { get; init; } = [];
}

/// <summary>Steps 1 and 2 where on and off are open in shares or decided: shortfalls by the strict order over all cars, then costs.</summary>
internal static class StrictOrder
{
    private const double WiderRoom = 1e-6;
    private const double LeastRoom = 1e-8;

    /// <summary>Solves a plan.</summary>
    /// <param name="plan">What is decided already.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="limit">When integers are given up.</param>
    /// <param name="expected">Shortfalls than which none can be less, as known from elsewhere; none: no shortfall.</param>
    /// <param name="known">What a schedule that is known leaves unmet: an answer that must leave more need not be cheap.</param>
    public static OrderedOptimum Solve(OnOffPlan plan, ShortfallOrder order, SolveLimit limit, HouseholdShortfalls? expected = null, HouseholdShortfalls? known = null)
    {
        // Most often nothing goes unmet, or no more than is known already: then step 1 is done.
        var met = Costs(plan, expected ?? HouseholdShortfalls.None(plan.Grid.Model), order, limit, null);
        return met.IsSolved ? met : ShortfallsFirst(plan, order, limit, expected, known);
    }

    /// <summary>The same where more is likely to go unmet than is known.</summary>
    /// <param name="plan">What is decided already.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="limit">When integers are given up.</param>
    /// <param name="noLess">Shortfalls than which none can be less; none: not known.</param>
    /// <param name="known">What a schedule that is known leaves unmet: an answer that must leave more need not be cheap.</param>
    /// <param name="alone">What each car leaves unmet without the others, in time order; none: not known.</param>
    public static OrderedOptimum ShortfallsFirst(
        OnOffPlan plan, ShortfallOrder order, SolveLimit limit, HouseholdShortfalls? noLess = null, HouseholdShortfalls? known = null, HouseholdShortfalls? alone = null)
    {
        if (LeastShortfalls.Of(plan, order, limit, noLess, known, alone) is not { } found)
        {
            return Unsolved(plan, HouseholdShortfalls.None(plan.Grid.Model), limitReached: true);
        }

        if (found.Powers is { } powers)
        {
            return new(powers, found.Shortfalls, 0, double.NegativeInfinity, true, false);
        }

        var least = found.Shortfalls;
        var answer = Costs(plan, least, order, limit, null);
        // A hold can be tighter than the solver's own rounding: then with as little more room as it needs.
        for (var room = LeastRoom; !answer.IsSolved && room <= 2 * WiderRoom; room *= 10)
        {
            answer = Costs(plan, Loosened(least), order, limit, room);
        }

        return answer;
    }

    /// <summary>Step 2 with shortfalls held.</summary>
    public static OrderedOptimum Costs(OnOffPlan plan, HouseholdShortfalls held, ShortfallOrder order, SolveLimit limit, double? room)
    {
        var (answer, hasNone) = Costs(byClp: false);
        return hasNone && limit.LeftMilliseconds > 1 ? Costs(byClp: true).Answer : answer;

        (OrderedOptimum Answer, bool HasNone) Costs(bool byClp)
        {
            using var program = room is { } wide and > 0
                ? HouseholdProgram.Of(plan, held, order, withCosts: true, limit, wide, byClp)
                : HouseholdProgram.Of(plan, held, order, withCosts: true, limit, byClp: byClp);
            program.Solve();
            return (Answer(program, plan, held), program.HasNoAnswer);
        }
    }

    /// <summary>Step 2 by integers, with shortfalls held; begins with a schedule that is known.</summary>
    public static OrderedOptimum Integers(OnOffPlan plan, HouseholdShortfalls held, ShortfallOrder order, SolveLimit limit, HouseholdPowers? known)
    {
        using var program = HouseholdProgram.Of(plan, held, order, withCosts: true, limit, WiderRoom);
        if (known is not null)
        {
            program.SetHint(known);
        }

        program.Solve();
        return Answer(program, plan, held);
    }

    private static OrderedOptimum Answer(HouseholdProgram program, OnOffPlan plan, HouseholdShortfalls held) =>
        program.HasSolution
            ? new(program.Powers(), program.Shortfalls(), program.Objective, program.Bound, true, program.LimitReached)
            {
                PeaksKw = plan.Peaks is null ? [] : program.PeaksKw(),
                On = plan.Peaks is null ? [] : program.OnShares(),
            }
            : Unsolved(plan, held, program.LimitReached) with { IsTooLarge = program.IsTooLarge };

    private static OrderedOptimum Unsolved(OnOffPlan plan, HouseholdShortfalls held, bool limitReached) =>
        new(new(plan.Modes.Length, plan.Grid.Count), held, 0, double.NegativeInfinity, false, limitReached);

    /// <summary>Step 1 by integers: what the rules of running leave unmet beyond the relaxation. All departures in one sum; then strictly, in time order one by one those that it leaves short, or trips
    /// and wishes by their totals, for of two cars that can't both charge the sum may spare the wrong one.</summary>
    public static OrderedOptimum LeastMissed(OnOffPlan plan, ShortfallOrder order, SolveLimit limit)
    {
        var model = plan.Grid.Model;
        using var program = HouseholdProgram.Of(plan, held: null, order, withCosts: false, limit);
        program.Minimise(program.AllShortfalls(order));
        if (!program.HasSolution)
        {
            return Unsolved(plan, HouseholdShortfalls.None(model), program.LimitReached);
        }

        var least = new OrderedOptimum(program.Powers(), program.Shortfalls(), 0, double.NegativeInfinity, true, program.LimitReached);
        var departures = model.DeparturesInOrder().ToArray();
        return InOrder(program, order == ShortfallOrder.LeastTotal ? [departures] : [.. departures.Select(one => new[] { one })], least, limit);
    }

    private static OrderedOptimum InOrder(HouseholdProgram program, (int Car, int Departure)[][] groups, OrderedOptimum least, SolveLimit limit)
    {
        var begun = limit.Work?.Units ?? 0;
        program.Hold(program.BelowSum, least.Shortfalls.BelowKwh + WiderRoom);
        foreach (var isTrip in new[] { true, false })
        {
            foreach (var group in groups)
            {
                var sum = new LinearSum();
                foreach (var (c, k) in group)
                {
                    sum.Add(isTrip ? program.TripSum(c, k) : program.TargetSum(c, k), 1);
                }

                double Left() => group.Sum(one => (isTrip ? least.Shortfalls.TripKwh : least.Shortfalls.TargetKwh)[one.Car][one.Departure]);
                if (Left() > HouseholdShortfalls.Counts && limit.MaySpare(begun) && program.Minimise(sum) < Left() - HouseholdShortfalls.Counts)
                {
                    least = least with { Powers = program.Powers(), Shortfalls = program.Shortfalls(), LimitReached = least.LimitReached || program.LimitReached };
                }

                program.Hold(sum, Left() + WiderRoom);
            }
        }

        return least;
    }

    /// <summary>The same with a variable for each shortfall, so that each has room.</summary>
    private static HouseholdShortfalls Loosened(HouseholdShortfalls held)
    {
        const double some = 1e-12;
        return new(
            Math.Max(some, held.BelowKwh),
            [.. held.TripKwh.Select(car => car.Select(kwh => Math.Max(some, kwh)).ToArray())],
            [.. held.TargetKwh.Select(car => car.Select(kwh => Math.Max(some, kwh)).ToArray())],
            [.. held.FinalKwh.Select(kwh => Math.Max(some, kwh))]);
    }
}
