using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>What must go unmet.</summary>
/// <param name="Shortfalls">The least, or what these powers leave.</param>
/// <param name="Powers">Powers that leave more unmet than a schedule that is known, where every choice does; the least was then not looked for to the end.</param>
internal sealed record LeastFound(HouseholdShortfalls Shortfalls, HouseholdPowers? Powers);

/// <summary>Step 1: the bounds of all cars, then trips, then wishes; sums first, departure by departure only where a sum counts.</summary>
internal static class LeastShortfalls
{
    // Of a shortfall that is none a solver leaves no more. [kWh]
    private const double Nothing = 1e-9;

    // A shortfall that is known to be the least is no more than that, but for rounding. [kWh]
    private const double Rounding = 1e-7;

    // Less does not show that one of two schedules leaves more. [kWh]
    private const double ShowsMore = 1e-4;

    /// <summary>Finds what must go unmet; null where no solver could tell.</summary>
    /// <param name="plan">What is decided already.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="limit">When integers are given up.</param>
    /// <param name="noLess">Than which nothing can leave less, as known from elsewhere: what it says need not be looked for.</param>
    /// <param name="known">What a schedule that is known leaves: what must leave more is not looked for further.</param>
    /// <param name="alone">What each car leaves unmet without the others, in time order: whatever others leave, none leaves less.</param>
    /// <remarks>GLOP sometimes ends without an answer once sums are held; CLP then begins anew.</remarks>
    public static LeastFound? Of(
        OnOffPlan plan, ShortfallOrder order, SolveLimit limit, HouseholdShortfalls? noLess = null, HouseholdShortfalls? known = null, HouseholdShortfalls? alone = null) =>
        By(plan, order, limit, byClp: false, noLess, known, alone) ?? By(plan, order, limit, byClp: true, noLess, known, alone);

    internal static LeastFound? By(
        OnOffPlan plan,
        ShortfallOrder order,
        SolveLimit limit,
        bool byClp,
        HouseholdShortfalls? noLess = null,
        HouseholdShortfalls? known = null,
        HouseholdShortfalls? alone = null)
    {
        var model = plan.Grid.Model;
        using var program = HouseholdProgram.Of(plan, held: null, order, withCosts: false, limit, byClp: byClp);
        // All at once first: what that leaves at nothing need not be looked for again.
        if (program.Minimise(program.AllShortfalls(order)) is null)
        {
            return null;
        }

        var last = program.Shortfalls();
        HouseholdPowers? powers = null;
        if (MinimiseAndHold(program.BelowSum, s => s.BelowKwh) is not { } below)
        {
            return null;
        }

        var least = HouseholdShortfalls.None(model) with { BelowKwh = below };
        if (!InOrder(program.TripSum, s => s.TripKwh, least.TripKwh) || !InOrder(program.TargetSum, s => s.TargetKwh, least.TargetKwh))
        {
            return null;
        }

        for (var c = 0; c < model.Cars.Length && powers is null; c++)
        {
            var car = c;
            if (MinimiseAndHold(program.FinalSum(c), s => s.FinalKwh[car]) is not { } final)
            {
                return null;
            }

            least.FinalKwh[c] = final;
        }

        return powers is null ? new(least, null) : new(last, powers);

        double? MinimiseAndHold(LinearSum sum, Func<HouseholdShortfalls, double> read)
        {
            if (powers is not null)
            {
                return 0;
            }

            var isLeast = (noLess is not null && read(last) <= read(noLess) + Rounding) || (alone is not null && read(last) <= read(alone) + Rounding);
            if (!sum.IsConstant && read(last) > Nothing && !isLeast)
            {
                if (program.Minimise(sum) is null)
                {
                    return null;
                }

                last = program.Shortfalls();
            }

            // Only while all before is at the least, or as it is known, does that say anything of what comes after.
            var one = sum.IsConstant ? sum.Constant : read(last);
            noLess = noLess is not null && one <= read(noLess) + Rounding ? noLess : null;
            if (known is not null && Math.Abs(one - read(known)) > ShowsMore)
            {
                powers = one > read(known) ? program.Powers() : null;
                known = null;
            }

            if (powers is null)
            {
                program.Hold(sum, one);
            }

            return Rounded(one);
        }

        bool InOrder(Func<int, int, LinearSum> shortfall, Func<HouseholdShortfalls, double[][]> read, double[][] found)
        {
            var all = new LinearSum();
            foreach (var (c, k) in model.DeparturesInOrder())
            {
                all.Add(shortfall(c, k), 1);
            }

            double Sum(HouseholdShortfalls shortfalls) => read(shortfalls).Sum(car => car.Sum());
            if (order == ShortfallOrder.LeastTotal || Sum(last) <= HouseholdShortfalls.Counts)
            {
                var solved = MinimiseAndHold(all, Sum) is not null;
                Take(read(last), found);
                return solved;
            }

            foreach (var (c, k) in model.DeparturesInOrder())
            {
                if (MinimiseAndHold(shortfall(c, k), s => read(s)[c][k]) is not { } one)
                {
                    return false;
                }

                found[c][k] = one;
            }

            return true;
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

    // What counts as none is none: then its variable is left out.
    private static double Rounded(double kwh) => kwh <= HouseholdShortfalls.Counts / 100 ? 0 : kwh;
}
