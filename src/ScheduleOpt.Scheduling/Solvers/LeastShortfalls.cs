using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>Step 1: the bounds of all cars, then trips, then wishes; sums first, departure by departure only where a sum counts.</summary>
internal static class LeastShortfalls
{
    /// <summary>Finds what must go unmet; null where no solver could tell.</summary>
    /// <param name="plan">What is decided already.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="limit">When integers are given up.</param>
    /// <remarks>GLOP sometimes ends without an answer once sums are held; CLP then begins anew.</remarks>
    public static HouseholdShortfalls? Of(OnOffPlan plan, ShortfallOrder order, SolveLimit limit) =>
        By(plan, order, limit, byClp: false) ?? By(plan, order, limit, byClp: true);

    internal static HouseholdShortfalls? By(OnOffPlan plan, ShortfallOrder order, SolveLimit limit, bool byClp)
    {
        var model = plan.Grid.Model;
        using var program = HouseholdProgram.Of(plan, held: null, order, withCosts: false, limit, byClp: byClp);
        if (MinimiseAndHold(program, program.BelowSum) is not { } below)
        {
            return null;
        }

        var least = HouseholdShortfalls.None(model) with { BelowKwh = below };
        if (!InOrder(program.TripSum, least.TripKwh) || !InOrder(program.TargetSum, least.TargetKwh))
        {
            return null;
        }

        for (var c = 0; c < model.Cars.Length; c++)
        {
            if (MinimiseAndHold(program, program.FinalSum(c)) is not { } final)
            {
                return null;
            }

            least.FinalKwh[c] = final;
        }

        return least;

        bool InOrder(Func<int, int, LinearSum> shortfall, double[][] found)
        {
            var all = new LinearSum();
            foreach (var (c, k) in model.DeparturesInOrder())
            {
                all.Add(shortfall(c, k), 1);
            }

            if (program.Minimise(all) is not { } sum)
            {
                return false;
            }

            if (order == ShortfallOrder.LeastTotal)
            {
                Take(found == least.TripKwh ? program.TripKwh() : program.TargetKwh(), found);
                program.Hold(all, sum);
                return true;
            }

            if (sum <= HouseholdShortfalls.Counts)
            {
                program.Hold(all, sum);
                return true;
            }

            foreach (var (c, k) in model.DeparturesInOrder())
            {
                if (MinimiseAndHold(program, shortfall(c, k)) is not { } one)
                {
                    return false;
                }

                found[c][k] = one;
            }

            return true;
        }
    }

    private static double? MinimiseAndHold(HouseholdProgram program, LinearSum sum)
    {
        if (program.Minimise(sum) is not { } least)
        {
            return null;
        }

        program.Hold(sum, least);
        return Rounded(least);
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
