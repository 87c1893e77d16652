using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Where one window is allowed, the cheapest one that stores as much as several.</summary>
internal static class CheapestBlock
{
    /// <summary>Replaces the windows of a stay by one of the same energy at full power; leaves them where none is long enough.</summary>
    /// <param name="model">The household.</param>
    /// <param name="on">On and off by car and interval.</param>
    /// <param name="c">The car.</param>
    /// <param name="first">First interval of the stay.</param>
    /// <param name="end">Boundary of its end.</param>
    /// <param name="wantedKwh">The energy; none: what the windows store at full power.</param>
    public static bool Put(HouseholdModel model, bool[][] on, int c, int first, int end, double? wantedKwh = null)
    {
        var car = model.Cars[c];
        var wanted = wantedKwh ?? Enumerable.Range(first, end - first).Sum(i => on[c][i] ? Kwh(i) : 0);
        var kept = on[c][first..end];
        Array.Fill(on[c], false, first, end - first);
        var (best, bestFrom, bestUntil) = (double.PositiveInfinity, first, first);
        var (until, stored, cost) = (first, 0.0, 0.0);
        var whole = model.Terms.Any(t => t is PeakModel) ? new HouseholdCost(model.Problem) : null;
        double[] home = whole is null ? [] : Home();
        for (var from = first; from < end; from++)
        {
            for (until = Math.Max(until, from); stored < wanted - 1e-9 && until < end && Fits(until); until++)
            {
                stored += Kwh(until);
                cost += Price(until);
            }

            // The last interval may be on in part.
            if (stored >= wanted - 1e-9 && until > from && Cost(from, until) is var exact && exact < best - 1e-9)
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

        double[] Home() =>
            [.. Enumerable.Range(0, model.Problem.Count).Select(i => model.Cars.Select((other, k) => on[k][i] ? other.MostKw[i] : 0).Sum())];

        // Where peaks are priced an hour's energy is the least of what it costs: there each block has the bill that it makes beside what is on elsewhere.
        double Cost(int from, int until)
        {
            var last = 1 - ((stored - wanted) / Kwh(until - 1));
            if (whole is null)
            {
                return cost - (Price(until - 1) * (1 - last));
            }

            double[] with = [.. home];
            for (var i = from; i < until; i++)
            {
                with[i] += car.MostKw[i] * (i + 1 < until ? 1 : last);
            }

            var (bill, carbon) = whole.AtHome(with);
            return bill + carbon;
        }

        double Price(int i) => model.Problem.Hours[i] * CostAnHour(model, i, car.MostKw[i]);
    }

    /// <summary>What a power beside the house costs; of a surplus what export would have earned. Terms are left to the programme. [currency/h]</summary>
    public static double CostAnHour(HouseholdModel model, int i, double wallKw)
    {
        var problem = model.Problem;
        var imported = Math.Max(0, wallKw + Math.Min(0, model.BaseKw[i]));
        return (imported * (problem.ImportPrice[i] + problem.CarbonPrice[i])) + ((wallKw - imported) * problem.ExportPrice[i]);
    }
}
