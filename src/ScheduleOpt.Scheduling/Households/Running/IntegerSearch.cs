using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Integers where rounding the linear programme is not good enough: first before each car's second departure, then stay by stay to the end.</summary>
internal sealed class IntegerSearch(RunnableSearch search, HouseholdRelaxation relaxation, PeakSearch? peaks, ShortfallOrder order, SolveLimit limit)
{
    private readonly HouseholdModel model = relaxation.Grid.Model;
    private HouseholdShortfalls held = relaxation.Shortfalls;
    private double proven = Math.Max(relaxation.Bound, peaks?.Bound ?? double.NegativeInfinity);

    /// <summary>Looks for a better schedule; gives the bound proven and whether the search ended above the gap that is fine.</summary>
    public (double Bound, bool LimitReached) Improve()
    {
        int[] until = [.. model.Cars.Select(c => c.IntegersUntil)];
        var grid = Segments.Of(model, from: until.Max());
        var plan = OnOffPlan.Integers(grid);
        var found = StrictOrder.Integers(plan with { Peaks = peaks?.Left }, held, order, limit, search.Best!.Powers);
        var nowhere = !found.IsSolved && !found.LimitReached;
        if (nowhere && search.Best.Shortfalls.Compare(held, model, order) <= 0)
        {
            // The schedule that is known lies outside the ranges searched, and nothing within them.
            return (Math.Max(proven, peaks?.BoundOutside ?? proven), false);
        }

        if (!found.IsSolved && search.Best.Shortfalls.Compare(held, model, order) > 0)
        {
            // Under the rules of running more goes unmet: as little as can be, then that at the least cost.
            if (StrictOrder.LeastMissed(plan, order, limit) is { IsSolved: true } spared)
            {
                search.TryIntegers(grid, spared.Powers, until);
                Roll(grid, spared.Powers, until);
            }

            if (search.Best.Shortfalls.Compare(held, model, order) > 0)
            {
                held = search.Best.Shortfalls;
                var relaxed = StrictOrder.Costs(OnOffPlan.Relaxed(relaxation.Grid), held, order, limit.Linear, room: 1e-6);
                proven = relaxed.IsSolved ? relaxed.Bound : double.NegativeInfinity;
                found = StrictOrder.Integers(plan, held, order, limit, search.Best.Powers);
            }
        }

        if (found.IsSolved)
        {
            proven = Math.Max(proven, Math.Min(found.Bound, peaks?.BoundOutside ?? double.PositiveInfinity));
            search.TryIntegers(grid, found.Powers, until);
            Roll(grid, found.Powers, until);
        }

        // Stays beyond the second departure may keep a gap that no limit of work made: the answer tells of that too.
        return (proven, found.LimitReached || !HouseholdScheduler.IsFine(search.Best, held, proven, model, order));
    }

    /// <summary>Decides the stays that follow, two at a time, with those before as they were decided.</summary>
    private void Roll(Segments grid, HouseholdPowers powers, int[] until)
    {
        var n = model.Problem.Count;
        var on = model.Cars.Select(_ => new bool[n]).ToArray();
        Decide(on, grid, powers, [.. until.Select(_ => 0)], until);
        while (until.Any(u => u < n) && limit.MayGoOn && !HouseholdScheduler.IsFine(search.Best!, held, proven, model, order))
        {
            int[] next = [.. model.Cars.Select((car, c) => SecondDepartureAfter(car, until[c]))];
            var later = Segments.Of(model, from: next.Max());
            var found = StrictOrder.Integers(Plan(later, on, until, next), held, order, limit.Later, null);
            if (!found.IsSolved)
            {
                return;
            }

            Decide(on, later, found.Powers, until, next);
            until = next;
            search.TryIntegers(later, found.Powers, until);
        }
    }

    private static void Decide(bool[][] on, Segments grid, HouseholdPowers powers, int[] from, int[] until)
    {
        for (var c = 0; c < on.Length; c++)
        {
            for (var i = from[c]; i < until[c]; i++)
            {
                on[c][i] = grid.Model.Cars[c].Car.Problem.Place[i] == Place.Home && powers.Share[c][grid.SegmentOf[i]] > RunnableSearch.OnAbove;
            }
        }
    }

    private OnOffPlan Plan(Segments grid, bool[][] on, int[] decided, int[] next)
    {
        var known = DecidedPlan.Of(search.Unmerged, on);
        var modes = OnOffPlan.Integers(grid, throughout: true).Modes;
        for (var c = 0; c < modes.Length; c++)
        {
            for (var s = 0; s < grid.Count; s++)
            {
                var i = grid.First[s];
                if (i < decided[c])
                {
                    modes[c][s] = known.Modes[c][i];
                }
                else if (i >= next[c] && modes[c][s] == OnOff.Integer)
                {
                    modes[c][s] = OnOff.Relaxed;
                }
            }
        }

        return new(grid, modes);
    }

    private static int SecondDepartureAfter(CarPower car, int boundary)
    {
        var ahead = car.Car.Problem.Departures.Where(d => d.Boundary > boundary).Take(2).ToArray();
        return ahead.Length == 2 ? ahead[1].Boundary : car.Car.Problem.Count;
    }
}
