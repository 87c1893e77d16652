using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Integers where rounding the linear programme is not good enough: over the whole horizon where the work allowed pays for that; otherwise first before each car's second departure, then stay by
/// stay to the end.</summary>
internal sealed class IntegerSearch
{
    // About as many rows as an interval of one car has with integers.
    private const int RowsAnInterval = 5;

    private readonly RunnableSearch search;
    private readonly HouseholdRelaxation relaxation;
    private readonly ShortfallOrder order;
    private readonly SolveLimit limit;
    private readonly HouseholdModel model;
    private OnOffPlan plan;
    private int[] until;
    private double proven;

    public IntegerSearch(RunnableSearch search, HouseholdRelaxation relaxation, ShortfallOrder order, SolveLimit limit)
    {
        (this.search, this.relaxation, this.order, this.limit) = (search, relaxation, order, limit);
        (model, Held, proven) = (relaxation.Grid.Model, relaxation.Shortfalls, relaxation.Bound);
        var throughout = CanPayFor(model.Problem.Count);
        until = [.. model.Cars.Select(car => throughout ? model.Problem.Count : car.IntegersUntil)];
        plan = throughout ? OnOffPlan.Integers(search.Unmerged, throughout) : OnOffPlan.Integers(relaxation.Until(until.Max()));
    }

    /// <summary>What may go unmet.</summary>
    public HouseholdShortfalls Held { get; private set; }

    /// <summary>Whether the best schedule leaves no more unmet than it must, and its gap is fine.</summary>
    public bool IsFine => HouseholdScheduler.IsFine(search.Best!, Held, proven, model, order);

    /// <summary>Whether no more is held unmet than without the rules of running.</summary>
    public bool HoldsTheLeast => ReferenceEquals(Held, relaxation.Shortfalls);

    /// <summary>Looks for a better schedule; gives the bound proven.</summary>
    public double Improve()
    {
        // Where ranges of peaks can help, most of the work is left for them; and of a first search SCIP would spend half on completing the hint.
        var (within, hint) = PeakSearch.Applies(model) ? (limit.First, null) : (limit, search.Best!.Powers);
        var found = StrictOrder.Integers(plan, Held, order, within, hint);
        if (found.IsTooLarge)
        {
            until = [.. model.Cars.Select(car => car.FirstDeparture)];
            plan = OnOffPlan.Integers(relaxation.Until(until.Max()), until);
            found = StrictOrder.Integers(plan, Held, order, within.Longer, search.Best!.Powers);
        }

        if (!found.IsSolved && search.Best!.Shortfalls.Compare(Held, model, order) > 0)
        {
            // Under the rules of running more goes unmet: as little as can be, then that at the least cost.
            if (StrictOrder.LeastMissed(plan, order, limit) is { IsSolved: true } spared)
            {
                Take(spared.Powers);
            }

            FreeTime.Fill(search, model, Held, order);
            if (search.Best.Shortfalls.Compare(Held, model, order) > 0)
            {
                Held = search.Best.Shortfalls;
                proven = HouseholdRelaxation.BoundWith(relaxation.Grid, Held, order);
                found = StrictOrder.Integers(plan, Held, order, limit, search.Best.Powers);
            }
        }

        if (found.IsSolved)
        {
            proven = Math.Max(proven, found.Bound);
            Take(found.Powers);
        }

        return proven;
    }

    /// <summary>Looks again, within the ranges of peaks that are left; gives the bound proven.</summary>
    public double Improve(PeakSearch peaks)
    {
        proven = Math.Max(proven, peaks.Bound);
        if (IsFine || peaks.Left is null || !limit.MayGoOn || !CanPayFor(plan.Grid.Count))
        {
            return proven;
        }

        var found = StrictOrder.Integers(plan with { Peaks = peaks.Left }, Held, order, limit, search.Best!.Powers);
        if (found.IsSolved)
        {
            proven = Math.Max(proven, Math.Min(found.Bound, peaks.BoundOutside));
            Take(found.Powers);
        }
        else if (!found.LimitReached)
        {
            // The schedule that is known lies outside the ranges searched, and nothing within them.
            proven = Math.Max(proven, peaks.BoundOutside);
        }

        return proven;
    }

    private bool CanPayFor(int intervals) => limit.CanPayFor(RowsAnInterval * intervals * model.Cars.Length);

    private void Take(HouseholdPowers powers)
    {
        search.TryIntegers(plan.Grid, powers, until);
        Roll(powers);
    }

    /// <summary>Decides the stays that follow, two at a time, with those before as they were decided.</summary>
    private void Roll(HouseholdPowers powers)
    {
        var n = model.Problem.Count;
        var on = model.Cars.Select(_ => new bool[n]).ToArray();
        var decided = until;
        Decide(on, plan.Grid, powers, [.. until.Select(_ => 0)], until);
        var whole = Whole(plan.Grid, powers, on);
        while (decided.Any(u => u < n) && limit.MayGoOn && !IsFine)
        {
            int[] next = [.. model.Cars.Select((car, c) => SecondDepartureAfter(car, decided[c]))];
            var later = relaxation.Until(next.Max());
            var found = StrictOrder.Integers(Plan(later, on, decided, next) with { FixedKw = whole is null ? null : Before(decided, later, whole) }, Held, order, limit.Later, null);
            if (!found.IsSolved)
            {
                return;
            }

            Decide(on, later, found.Powers, decided, next);
            decided = next;
            whole = Whole(later, found.Powers, on);
            search.TryIntegers(later, found.Powers, decided);
        }
    }

    /// <summary>Whole amperes as they were decided, by car and interval; null where none are asked for. [kW]</summary>
    private double[][]? Whole(Segments segments, HouseholdPowers powers, bool[][] on) =>
        WholeAmperes.Wanted(model) ? WholeAmperes.Fixed(model, segments.Expanded(powers), on, AmpereRounding.Nearest) : null;

    /// <summary>The same by segment, for stays that are decided.</summary>
    private static double[][] Before(int[] decided, Segments segments, double[][] kw) =>
        [.. kw.Select((own, c) => Enumerable.Range(0, segments.Count).Select(s => segments.First[s] < decided[c] ? own[segments.First[s]] : double.NaN).ToArray())];

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
