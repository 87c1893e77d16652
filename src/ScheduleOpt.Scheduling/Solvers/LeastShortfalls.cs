using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>Step 1: the bounds of all cars, then trips, then wishes; sums first, departure by departure only where a sum counts.</summary>
internal static class LeastShortfalls
{
    // Of a shortfall that is none a solver leaves no more. [kWh]
    private const double Nothing = 1e-9;

    /// <summary>Finds what must go unmet; null where no solver could tell.</summary>
    /// <param name="plan">What is decided already.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="limit">When integers are given up.</param>
    /// <param name="alone">What each car leaves unmet without the others, in time order: less can't be found. None: not known.</param>
    /// <remarks>GLOP sometimes ends without an answer once sums are held; CLP then begins anew.</remarks>
    public static HouseholdShortfalls? Of(OnOffPlan plan, ShortfallOrder order, SolveLimit limit, HouseholdShortfalls? alone = null) =>
        By(plan, order, limit, byClp: false, alone) ?? By(plan, order, limit, byClp: true, alone);

    internal static HouseholdShortfalls? By(OnOffPlan plan, ShortfallOrder order, SolveLimit limit, bool byClp, HouseholdShortfalls? alone = null)
    {
        var model = plan.Grid.Model;
        using var program = HouseholdProgram.Of(plan, held: null, order, withCosts: false, limit, byClp: byClp);
        // All at once first: what that leaves at nothing need not be looked for again.
        if (program.Minimise(program.AllShortfalls()) is null)
        {
            return null;
        }

        var last = program.Shortfalls();
        if (MinimiseAndHold(program.BelowSum, s => s.BelowKwh) is not { } below)
        {
            return null;
        }

        var least = HouseholdShortfalls.None(model) with { BelowKwh = below };
        if (!InOrder(program.TripSum, s => s.TripKwh, least.TripKwh) || !InOrder(program.TargetSum, s => s.TargetKwh, least.TargetKwh))
        {
            return null;
        }

        for (var c = 0; c < model.Cars.Length; c++)
        {
            var car = c;
            if (MinimiseAndHold(program.FinalSum(c), s => s.FinalKwh[car]) is not { } final)
            {
                return null;
            }

            least.FinalKwh[c] = final;
        }

        return least;

        double? MinimiseAndHold(LinearSum sum, Func<HouseholdShortfalls, double> read)
        {
            if (!sum.IsConstant && read(last) > (alone is null ? 0 : read(alone)) + Nothing)
            {
                if (program.Minimise(sum) is null)
                {
                    return null;
                }

                last = program.Shortfalls();
            }

            var one = sum.IsConstant ? sum.Constant : read(last);
            program.Hold(sum, one);
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
