using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>What a schedule that leaves too much unmet can still be given: time before a departure that is free, or that cars have which are due later.</summary>
/// <remarks>In the strict order of what goes unmet, each trial is kept only where less goes unmet: so no car stays off that could charge while it is short.</remarks>
internal static class FreeTime
{
    // Each is a programme for powers, and several where shortfalls must be looked for.
    private const int MostTrials = 24;

    // However much work the search before has taken.
    private const int TrialsAnyway = 16;
    private const double UnitsAnyway = 2000;

    /// <summary>Tries to leave less unmet.</summary>
    /// <param name="search">Where trials are kept.</param>
    /// <param name="model">The household.</param>
    /// <param name="least">What must go unmet.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="limit">When optional work ends.</param>
    public static void Fill(RunnableSearch search, HouseholdModel model, HouseholdShortfalls least, ShortfallOrder order, SolveLimit limit)
    {
        var (trials, begun) = (0, limit.Work?.Units ?? 0);
        bool MayTry() => trials < (limit.MayGoOn ? MostTrials : TrialsAnyway) && (limit.MayGoOn || limit.Work!.Units - begun < UnitsAnyway);
        foreach (var isTrip in new[] { true, false })
        {
            foreach (var (c, k) in model.DeparturesInOrder())
            {
                foreach (var way in Enum.GetValues<Way>())
                {
                    var missing = Missing();
                    if (missing <= HouseholdShortfalls.Counts || !MayTry() || search.Best!.Shortfalls.Compare(least, model, order) <= 0)
                    {
                        break;
                    }

                    bool[][] on = [.. search.BestOn!.Select(car => car.ToArray())];
                    if (Put(model, on, c, k, missing, way))
                    {
                        trials += search.Try(on) is null ? 0 : 1;
                    }
                }

                // All of it: where an earlier departure must leave more unmet than the relaxation says, a later one may leave less.
                double Missing() => (isTrip ? search.Best!.Shortfalls.TripKwh : search.Best!.Shortfalls.TargetKwh)[c][k];
            }
        }
    }

    /// <summary>Puts what is missing before a departure; false where nothing changes.</summary>
    private static bool Put(HouseholdModel model, bool[][] on, int c, int k, double missingKwh, Way way)
    {
        var car = model.Cars[c];
        var departure = car.Car.Problem.Departures[k].Boundary;
        var changed = false;
        foreach (var (first, end) in car.Stays.Where(s => s.First < departure).Reverse())
        {
            if (missingKwh <= 0)
            {
                break;
            }

            var put = way == Way.OneWindow
                ? OneWindow(model, on, c, first, end, missingKwh)
                : InFreeTime(model, on, c, first, end, missingKwh, way);
            missingKwh -= put;
            changed |= put > 0;
        }

        for (var other = 0; changed && other < on.Length; other++)
        {
            foreach (var (first, end) in model.Cars[other].Stays)
            {
                WindowRules.Keep(model, on, other, first, end);
            }
        }

        return changed;
    }

    private static double OneWindow(HouseholdModel model, bool[][] on, int c, int first, int end, double missingKwh)
    {
        var had = Enumerable.Range(first, end - first).Sum(i => on[c][i] ? Kwh(model, c, i) : 0);
        return CheapestBlock.Put(model, on, c, first, end, had + missingKwh) ? missingKwh : 0;
    }

    private static double InFreeTime(HouseholdModel model, bool[][] on, int c, int first, int end, double missingKwh, Way way)
    {
        var put = 0.0;
        var prices = model.Problem.ImportPrice;
        var times = Enumerable.Range(first, end - first).Where(i => !on[c][i] && Kwh(model, c, i) > 0);

        // The last free time makes one window with what ends there; the cheapest costs least.
        times = way == Way.Cheapest ? times.OrderBy(i => prices[i]).ThenByDescending(i => i) : times.Reverse();
        foreach (var i in times.ToArray())
        {
            if (put >= missingKwh)
            {
                break;
            }

            if (!OnOffRounding.Fits(model, on, c, i) && (way != Way.BeforeOthers || !MakeRoom(model, on, c, i)))
            {
                continue;
            }

            on[c][i] = true;
            put += Kwh(model, c, i);
        }

        return put;
    }

    /// <summary>Takes an interval from cars that depart later.</summary>
    private static bool MakeRoom(HouseholdModel model, bool[][] on, int c, int i)
    {
        var due = Due(c);
        var took = new List<int>();
        foreach (var other in Enumerable.Range(0, on.Length).Where(o => o != c && on[o][i] && Due(o) > due).OrderByDescending(Due))
        {
            on[other][i] = false;
            took.Add(other);
            if (OnOffRounding.Fits(model, on, c, i))
            {
                return true;
            }
        }

        took.ForEach(other => on[other][i] = true);
        return false;

        int Due(int car) => model.Problem.Cars[car].Problem.Departures.FirstOrDefault(d => d.Boundary > i)?.Boundary ?? int.MaxValue;
    }

    private static double Kwh(HouseholdModel model, int c, int i) => model.Cars[c].NetKw(i, model.Cars[c].MostKw[i], 1) * model.Problem.Hours[i];

    /// <summary>Where the missing energy is looked for.</summary>
    private enum Way
    {
        /// <summary>In the cheapest intervals that are free.</summary>
        Cheapest,

        /// <summary>In the last ones.</summary>
        Latest,

        /// <summary>In the last ones, those of cars that depart later too.</summary>
        BeforeOthers,

        /// <summary>In one window with what the stay has already.</summary>
        OneWindow,
    }
}
