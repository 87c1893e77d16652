using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Where one window is allowed, the cheapest one that stores as much as several.</summary>
internal static class CheapestBlock
{
    /// <summary>Replaces the windows of a stay by one of the same energy at full power; leaves them where none is long enough.</summary>
    public static bool Put(HouseholdModel model, bool[][] on, int c, int first, int end)
    {
        var car = model.Cars[c];
        var wanted = 0.0;
        for (var i = first; i < end; i++)
        {
            wanted += on[c][i] ? Kwh(i) : 0;
        }

        var kept = on[c][first..end];
        Array.Fill(on[c], false, first, end - first);
        var (best, bestFrom, bestUntil) = (double.PositiveInfinity, first, first);
        var (until, stored, cost) = (first, 0.0, 0.0);
        for (var from = first; from < end; from++)
        {
            for (until = Math.Max(until, from); stored < wanted - 1e-9 && until < end && Fits(until); until++)
            {
                stored += Kwh(until);
                cost += Price(until);
            }

            // The last interval may be on in part.
            if (stored >= wanted - 1e-9 && until > from && cost - (Price(until - 1) * (stored - wanted) / Kwh(until - 1)) is var exact && exact < best - 1e-9)
            {
                (best, bestFrom, bestUntil) = (exact, from, until);
            }

            if (until > from)
            {
                stored -= Kwh(from);
                cost -= Price(from);
            }
            else
            {
                (stored, cost) = (0, 0);
            }
        }

        if (bestUntil == bestFrom)
        {
            kept.CopyTo(on[c], first);
            return false;
        }

        Array.Fill(on[c], true, bestFrom, bestUntil - bestFrom);
        return true;

        bool Fits(int i) => OnOffRounding.Fits(model, on, c, i) && Kwh(i) > 0;

        double Kwh(int i) => car.NetKw(i, car.MostKw[i], 1) * model.Problem.Hours[i];

        // Of a surplus what export would have earned; terms are left to the programme.
        double Price(int i)
        {
            var problem = model.Problem;
            var imported = Math.Max(0, car.MostKw[i] + Math.Min(0, model.BaseKw[i]));
            return problem.Hours[i] * ((imported * (problem.ImportPrice[i] + problem.CarbonPrice[i])) + ((car.MostKw[i] - imported) * problem.ExportPrice[i]));
        }
    }
}
