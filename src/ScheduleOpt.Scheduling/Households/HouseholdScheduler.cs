using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>Finds the least-cost runnable schedule of a household: linear program, runnable schedule, then integers where the gap is too large.</summary>
public static class HouseholdScheduler
{
    /// <summary>A gap that is fine: a tenth of a cent. [currency]</summary>
    public const double FineGapAtLeast = 0.001;

    /// <summary>A gap that is fine, as a share of the bound.</summary>
    public const double FineGapShare = 0.001;

    // Once around is enough where a style is as good as another; what is tried first is best most often.
    private static readonly RoundingStyle[] Styles =
    [
        new(1, Early: false, 0), new(0, Early: false, 0), new(1, Early: true, 0), new(0.5, Early: false, 0), new(0, Early: true, 0), new(1, Early: true, 1),
    ];

    /// <summary>Solves a problem. Every problem has an answer: what can't be met shows as a shortfall.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="proveBound">Whether the gap must be proven small. Otherwise a night that nothing couples goes by the direct sweep alone, and others stop before integers.</param>
    public static HouseholdSchedule Solve(HouseholdProblem problem, ShortfallOrder order = ShortfallOrder.InTimeOrder, bool proveBound = true)
    {
        ArgumentNullException.ThrowIfNull(problem);
        return Solve(problem, order, SolveLimit.Default, proveBound);
    }

    /// <summary>The same with a limit of one's own on the search by integers.</summary>
    internal static HouseholdSchedule Solve(HouseholdProblem problem, ShortfallOrder order, SolveLimit limit, bool proveBound = true)
    {
        var model = HouseholdModel.Of(problem);
        if (SimpleNight.Is(model))
        {
            return SimpleNight.Solve(model, order, proveBound);
        }

        var schedule = Coupled(model, order, limit, proveBound);
        return Simple(model, order, proveBound) is { } simple && IsBetter(simple, schedule, model, order) ? simple with { Bound = Math.Min(simple.Bound, schedule.Bound) } : schedule;
    }

    /// <summary>One adjustable car with nothing coupled at full current: its windows may pause inside an interval, which integers don't see. Null for other households.</summary>
    private static HouseholdSchedule? Simple(HouseholdModel model, ShortfallOrder order, bool proveBound)
    {
        if (model.Cars.Length > 1 || model.Cars[0].Car.Rules is not { Adjustable: true, WholeAmperes: false })
        {
            return null;
        }

        var full = FullCurrent(model);
        return SimpleNight.Is(full) ? SimpleNight.Solve(full, order, proveBound) : null;
    }

    private static bool IsBetter(HouseholdSchedule one, HouseholdSchedule other, HouseholdModel model, ShortfallOrder order)
    {
        var compared = Unmet(one).Compare(Unmet(other), model, order);
        return compared < 0 || (compared == 0 && one.Objective < other.Objective - FineGapAtLeast);

        static HouseholdShortfalls Unmet(HouseholdSchedule schedule) =>
            new(0, [.. schedule.Cars.Select(c => c.TripShortfallKwh)], [.. schedule.Cars.Select(c => c.TargetShortfallKwh)], new double[schedule.Cars.Count]);
    }

    /// <summary>Whether a gap needs no integers.</summary>
    internal static bool IsFine(double objective, double bound) =>
        objective - bound <= Math.Max(FineGapAtLeast, FineGapShare * Math.Abs(bound));

    private static HouseholdSchedule Coupled(HouseholdModel model, ShortfallOrder order, SolveLimit given, bool proveBound)
    {
        var found = Search(model, order, given, proveBound);
        return Schedule(model, found.Run, found.Bound, found.Route, found.Stopped) with { SearchedPeaks = found.SearchedPeaks };
    }

    private static Found Search(HouseholdModel model, ShortfallOrder order, SolveLimit given, bool proveBound)
    {
        var limit = given.For(model.Problem.Count * model.Cars.Length, given.Work?.Altogether ?? 0);
        var linear = limit.Linear;
        var grid = Segments.Of(model);
        var choosing = model.ChoosesFlow.Any(f => f);
        var relaxation = HouseholdRelaxation.Solve(grid, order, linear, freeFlows: choosing);
        limit.Work!.BeginTrials();
        var search = new RunnableSearch(model, order, relaxation.Shortfalls, linear);
        Round(search, relaxation, model, order, limit);
        if (proveBound && choosing && !IsFine(search, relaxation, model, order) && limit.MayTry)
        {
            // The binaries of flows alone often close the gap.
            relaxation = HouseholdRelaxation.Solve(grid, order, linear);
            Round(search, relaxation, model, order, limit);
        }

        if (search.Best is null || search.Best.Shortfalls.Compare(relaxation.Shortfalls, model, order) > 0)
        {
            search.TryOnArrival();
        }

        var (route, bound, stopped) = (SolveRoute.Linear, relaxation.Bound, relaxation.LimitReached);
        var held = relaxation.Shortfalls;
        PeakSearch? peaks = null;
        if (proveBound && !IsFine(search.Best!, relaxation.Shortfalls, bound, model, order))
        {
            route = SolveRoute.Integers;
            var integers = new IntegerSearch(search, relaxation, order, limit);
            bound = integers.Improve();
            if (!integers.IsFine && integers.HoldsTheLeast && limit.MayGoOn && PeakSearch.Applies(model))
            {
                peaks = new(search, relaxation, bound, order, linear);
                peaks.Run();
                bound = integers.Improve(peaks);
            }

            // Stays beyond the second departure may keep a gap that no limit of work made: the answer tells of that too.
            held = integers.Held;
            stopped |= !integers.IsFine || limit.IntegersLeftMilliseconds <= 1;
        }

        if (proveBound && search.Best!.Shortfalls.Compare(relaxation.Shortfalls, model, order) > 0 && AtFullCurrent(model, order, limit) is { } full)
        {
            search.Try(full.Powers, full.Shortfalls.TripKwh);
        }

        if (proveBound && !IsFine(search.Best!, relaxation.Shortfalls, bound, model, order))
        {
            LastTrials(search, relaxation, order);
            if (search.Best!.Shortfalls.Compare(held, model, order) < 0)
            {
                bound = HouseholdRelaxation.BoundWith(grid, search.Best.Shortfalls, order);
                stopped |= !IsFine(search.Best.Objective, bound);
            }
        }

        var chosen = FewerWindows.Of(search, model, order, limit);
        return new(chosen, Math.Min(double.IsFinite(bound) ? bound : chosen.Objective, search.Best!.Objective), route, stopped, peaks is not null);
    }

    /// <summary>Plain schedules that need no search, where the gap stays: on arrival, one window a stay, and free time for what is short.</summary>
    private static void LastTrials(RunnableSearch search, HouseholdRelaxation relaxation, ShortfallOrder order)
    {
        var model = relaxation.Grid.Model;
        search.TryOnArrival();
        var on = OnOffRounding.On(relaxation.Grid, relaxation.Powers, Styles[0]);
        for (var c = 0; c < model.Cars.Length; c++)
        {
            foreach (var (first, end) in model.Cars[c].Stays)
            {
                CheapestBlock.Put(model, on, c, first, end);
                WindowRules.Keep(model, on, c, first, end);
            }
        }

        search.Try(on);
        FreeTime.Fill(search, model, relaxation.Shortfalls, order);
    }

    /// <summary>Several adjustable cars at full current, which is the smaller search: where not everything can be met it sometimes leaves less unmet. Null where it is no other household.</summary>
    private static RunnableSchedule? AtFullCurrent(HouseholdModel model, ShortfallOrder order, SolveLimit limit)
    {
        var cars = model.Problem.Cars;
        if (cars.Count < 2 || !cars.Any(c => c.Rules.Adjustable) || WholeAmperes.Wanted(model))
        {
            return null;
        }

        return Search(FullCurrent(model), order, limit with { GuardMilliseconds = (int)limit.LeftMilliseconds }, proveBound: true).Run;
    }

    /// <summary>The same household with no current that can be set.</summary>
    private static HouseholdModel FullCurrent(HouseholdModel model) =>
        HouseholdModel.Of(model.Problem with { Cars = [.. model.Problem.Cars.Select(c => c with { Rules = c.Rules with { Adjustable = false } })] });

    private static void Round(RunnableSearch search, HouseholdRelaxation relaxation, HouseholdModel model, ShortfallOrder order, SolveLimit limit)
    {
        foreach (var style in Styles)
        {
            search.Try(relaxation.Grid, relaxation.Powers, style);
            if (IsFine(search, relaxation, model, order) || (search.Best is not null && !limit.MayTry))
            {
                break;
            }
        }
    }

    private static bool IsFine(RunnableSearch search, HouseholdRelaxation relaxation, HouseholdModel model, ShortfallOrder order) =>
        search.Best is { } best && IsFine(best, relaxation.Shortfalls, relaxation.Bound, model, order);

    /// <summary>Whether a schedule leaves no more unmet than it must and its gap needs no integers.</summary>
    internal static bool IsFine(RunnableSchedule run, HouseholdShortfalls least, double bound, HouseholdModel model, ShortfallOrder order) =>
        run.Shortfalls.Compare(least, model, order) <= 0 && IsFine(run.Objective, bound);

    private static HouseholdSchedule Schedule(HouseholdModel model, RunnableSchedule run, double bound, SolveRoute route, bool stopped)
    {
        var cars = new List<CarSchedule>();
        for (var c = 0; c < model.Cars.Length; c++)
        {
            var (kw, shares) = (run.Powers.WallKw[c], run.Powers.Share[c]);
            var currents = Running.CurrentSteps.Currents(model.Cars[c], kw, shares);
            cars.Add(new(
                currents, shares, Running.CurrentSteps.Of(model.Cars[c], currents, shares), run.StoredKwh[c], run.Shortfalls.TripKwh[c], run.Shortfalls.TargetKwh[c]));
        }

        return new(cars, run.BillCost + run.CarbonCost, run.BillCost, run.Objective, bound, route, stopped);
    }

    private sealed record Found(RunnableSchedule Run, double Bound, SolveRoute Route, bool Stopped, bool SearchedPeaks);
}
