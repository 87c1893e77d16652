using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>An optimum by the strict order.</summary>
internal sealed record OrderedOptimum(
    HouseholdPowers Powers, HouseholdShortfalls Shortfalls, double Objective, double Bound, bool IsSolved, bool LimitReached);

/// <summary>Steps 1 and 2 where on and off are open in shares or decided: shortfalls by the strict order over all cars, then costs.</summary>
internal static class StrictOrder
{
    private const double WiderRoom = 1e-6;
    private const double LeastRoom = 1e-8;

    /// <summary>Solves a plan.</summary>
    /// <param name="plan">What is decided already.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="limit">When integers are given up.</param>
    /// <param name="expected">Shortfalls than which none are less, as known from elsewhere; none: no shortfall.</param>
    public static OrderedOptimum Solve(OnOffPlan plan, ShortfallOrder order, SolveLimit limit, HouseholdShortfalls? expected = null)
    {
        // Most often nothing goes unmet, or no more than is known already: then step 1 is done.
        if (Costs(plan, expected ?? HouseholdShortfalls.None(plan.Grid.Model), order, limit, null) is { IsSolved: true } met)
        {
            return met;
        }

        var least = Least(plan, order, limit);
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
        using var program = room is { } wide and > 0
            ? HouseholdProgram.Of(plan, held, order, withCosts: true, limit, wide)
            : HouseholdProgram.Of(plan, held, order, withCosts: true, limit);
        program.Solve();
        return program.HasSolution
            ? new(program.Powers(), program.Shortfalls(), program.Objective, program.Bound, true, program.LimitReached)
            : new(new(plan.Modes.Length, plan.Grid.Count), held, 0, double.NegativeInfinity, false, program.LimitReached);
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
        return program.HasSolution
            ? new(program.Powers(), program.Shortfalls(), program.Objective, program.Bound, true, program.LimitReached)
            : new(new(plan.Modes.Length, plan.Grid.Count), held, 0, double.NegativeInfinity, false, program.LimitReached);
    }

    /// <summary>Step 1 by integers: what the rules of running leave unmet beyond the relaxation. All departures in one sum; in time order then one by one those that it leaves short, for
    /// of two cars that can't both charge the sum may spare the wrong one.</summary>
    public static OrderedOptimum LeastMissed(OnOffPlan plan, ShortfallOrder order, SolveLimit limit)
    {
        const double boundsFirst = 1000;
        const double tripsFirst = 30;
        var model = plan.Grid.Model;
        using var program = HouseholdProgram.Of(plan, held: null, order, withCosts: false, limit);
        var sum = new LinearSum();
        sum.Add(program.BelowSum, boundsFirst);
        foreach (var (c, k) in model.DeparturesInOrder())
        {
            sum.Add(program.TripSum(c, k), tripsFirst);
            sum.Add(program.TargetSum(c, k), 1);
        }

        program.Minimise(sum);
        if (!program.HasSolution)
        {
            return new(new(plan.Modes.Length, plan.Grid.Count), HouseholdShortfalls.None(model), 0, double.NegativeInfinity, false, program.LimitReached);
        }

        var least = new OrderedOptimum(program.Powers(), program.Shortfalls(), 0, double.NegativeInfinity, true, program.LimitReached);
        return order == ShortfallOrder.InTimeOrder ? OneByOne(program, model, least) : least;
    }

    private static OrderedOptimum OneByOne(HouseholdProgram program, HouseholdModel model, OrderedOptimum least)
    {
        program.Hold(program.BelowSum, least.Shortfalls.BelowKwh + WiderRoom);
        foreach (var isTrip in new[] { true, false })
        {
            foreach (var (c, k) in model.DeparturesInOrder())
            {
                var sum = isTrip ? program.TripSum(c, k) : program.TargetSum(c, k);
                double Left() => (isTrip ? least.Shortfalls.TripKwh : least.Shortfalls.TargetKwh)[c][k];
                if (Left() > HouseholdShortfalls.Counts && program.Minimise(sum) < Left() - HouseholdShortfalls.Counts)
                {
                    least = least with { Powers = program.Powers(), Shortfalls = program.Shortfalls(), LimitReached = least.LimitReached || program.LimitReached };
                }

                program.Hold(sum, Left() + WiderRoom);
            }
        }

        return least;
    }

    /// <summary>Step 1: the bounds of all cars, then trips, then wishes; sums first, departure by departure only where a sum counts.</summary>
    private static HouseholdShortfalls Least(OnOffPlan plan, ShortfallOrder order, SolveLimit limit)
    {
        var model = plan.Grid.Model;
        using var program = HouseholdProgram.Of(plan, held: null, order, withCosts: false, limit);
        var least = HouseholdShortfalls.None(model) with { BelowKwh = Rounded(program.MinimiseAndHold(program.BelowSum)) };
        InOrder(program.TripSum, least.TripKwh);
        InOrder(program.TargetSum, least.TargetKwh);
        for (var c = 0; c < model.Cars.Length; c++)
        {
            least.FinalKwh[c] = Rounded(program.MinimiseAndHold(program.FinalSum(c)));
        }

        return least;

        void InOrder(Func<int, int, LinearSum> shortfall, double[][] found)
        {
            var all = new LinearSum();
            foreach (var (c, k) in model.DeparturesInOrder())
            {
                all.Add(shortfall(c, k), 1);
            }

            if (order == ShortfallOrder.LeastTotal)
            {
                var sum = program.Minimise(all);
                var held = program.Shortfalls();
                Take(found == least.TripKwh ? held.TripKwh : held.TargetKwh, found);
                program.Hold(all, sum);
            }
            else if (program.Minimise(all) is var none and <= HouseholdShortfalls.Counts)
            {
                program.Hold(all, none);
            }
            else
            {
                foreach (var (c, k) in model.DeparturesInOrder())
                {
                    found[c][k] = Rounded(program.MinimiseAndHold(shortfall(c, k)));
                }
            }
        }
    }

    private static void Take(double[][] from, double[][] into)
    {
        // Rounded one by one their sum could be less than can be held.
        var isNone = Rounded(from.Sum(car => car.Sum())) == 0;
        for (var c = 0; c < into.Length; c++)
        {
            for (var k = 0; k < into[c].Length; k++)
            {
                into[c][k] = isNone ? 0 : from[c][k];
            }
        }
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

    // What counts as none is none: then its variable is left out.
    private static double Rounded(double kwh) => kwh <= HouseholdShortfalls.Counts / 100 ? 0 : kwh;
}
