using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>The optimum of a household's problem by steps 1 and 2, without windows and the rules of running: what answers in money compare.</summary>
/// <param name="Bill">What charging adds to the bill, stops included. [currency]</param>
/// <param name="Carbon">What it adds at the carbon price. [currency]</param>
/// <param name="StoredKwh">Stored energy by car and boundary. [kWh]</param>
/// <param name="TripShortfallKwh">By car and departure. [kWh]</param>
/// <param name="TargetShortfallKwh">By car and departure. [kWh]</param>
/// <param name="FinalShortfallKwh">By how much each car misses the energy asked for at the end. [kWh]</param>
/// <param name="WallKw">Average power by car and interval. [kW]</param>
/// <param name="Shares">Share of each interval in which each car charges.</param>
/// <param name="LimitReached">Whether a limit stopped the solver.</param>
public sealed record HouseholdLeast(
    double Bill,
    double Carbon,
    double[][] StoredKwh,
    double[][] TripShortfallKwh,
    double[][] TargetShortfallKwh,
    double[] FinalShortfallKwh,
    double[][] WallKw,
    double[][] Shares,
    bool LimitReached)
{
    /// <summary>Whether anything goes unmet beyond rounding.</summary>
    public bool AnyShort => Shortfalls?.Any == true || Most(TripShortfallKwh) > HouseholdShortfalls.Counts || Most(TargetShortfallKwh) > HouseholdShortfalls.Counts
        || FinalShortfallKwh.Max() > HouseholdShortfalls.Counts;

    // What step 1 held, and the relaxed solution; none where the sweep answered.
    private HouseholdShortfalls? Shortfalls { get; init; }

    private HouseholdRelaxation? Relaxed { get; init; }

    private HouseholdModel? Model { get; init; }

    /// <summary>Whether charging elsewhere, or more of it, never gets cheaper for it: a wish that does not bind can then be left out without changing the optimum.</summary>
    public bool IsConvex => Model is null || (Model.Terms.All(t => t.Pieces.IsConvex) && !Model.ChoosesFlow.Any(f => f));

    /// <summary>Solves a problem: by the direct sweep where nothing couples the charges, otherwise by the relaxation. Every problem has an answer.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    public static HouseholdLeast Of(HouseholdProblem problem, ShortfallOrder order = ShortfallOrder.InTimeOrder)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var model = HouseholdModel.Of(problem);
        return SimpleNight.Is(model) ? Alone(model, order) : Of(model, HouseholdRelaxation.Solve(Segments.Of(model), order));
    }

    /// <summary>The optimum in which no more goes unmet than in another; null where that can't be. One programme, where step 1 would need one for each departure that is short.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="other">The optimum of a problem with the same cars and departures.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="cured">A departure that is not short at all: its car, and its number; none: as the other.</param>
    public static HouseholdLeast? NoWorseThan(HouseholdProblem problem, HouseholdLeast other, ShortfallOrder order, (int Car, int Departure)? cured = null)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(other);
        const double room = 1e-7;
        var model = HouseholdModel.Of(problem);
        if (SimpleNight.Is(model))
        {
            return Alone(model, order);
        }

        if (other.Shortfalls is not { } held || problem.Cars.Select(c => c.Problem.Departures.Length).SequenceEqual(held.TripKwh.Select(t => t.Length)) is false)
        {
            return Of(problem, order);
        }

        if (cured is { } one)
        {
            held = held with { TripKwh = Without(held.TripKwh, one), TargetKwh = Without(held.TargetKwh, one) };
        }

        var grid = Segments.Of(model);
        var found = StrictOrder.Costs(OnOffPlan.Relaxed(grid), held, order, SolveLimit.Default.Linear, room);
        return !found.IsSolved ? null : Of(model, new()
        {
            Grid = grid, Powers = found.Powers, Shortfalls = found.Shortfalls, Objective = found.Objective, Bound = found.Bound, LimitReached = found.LimitReached,
        });
    }

    /// <summary>The optimum made runnable: rules of running kept, one way of rounding, no search for a better one. Each car's runs of one current.</summary>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="problem">Its problem.</param>
    public IReadOnlyList<IReadOnlyList<CurrentStep>> Runnable(HouseholdProblem problem, ShortfallOrder order)
    {
        if (Relaxed is not { } relaxed || Model is not { } model)
        {
            return [.. HouseholdScheduler.Solve(problem, order, proveBound: false).Cars.Select(c => c.Steps)];
        }

        var search = new RunnableSearch(model, order, relaxed.Shortfalls, SolveLimit.Default.Linear);
        if (search.Try(relaxed.Grid, relaxed.Powers, new(1, Early: false, 0)) is null)
        {
            search.TryOnArrival();
        }

        var powers = search.Best!.Powers;
        return [.. model.Cars.Select((car, c) => CurrentSteps.Of(car, CurrentSteps.Currents(car, powers.WallKw[c], powers.Share[c]), powers.Share[c]))];
    }

    private static double[][] Without(double[][] kwh, (int Car, int Departure) one) =>
        [.. kwh.Select((own, c) => own.Select((value, k) => (c, k) == one ? 0 : value).ToArray())];

    private static double Most(double[][] kwh) => kwh.SelectMany(own => own).DefaultIfEmpty(0).Max();

    private static HouseholdLeast Alone(HouseholdModel model, ShortfallOrder order)
    {
        var (own, least) = SimpleNight.Least(model, order);
        var kw = new double[model.Problem.Count];
        for (var i = 0; i < kw.Length; i++)
        {
            kw[i] = own.WallKw[i] * least.Shares[i];
        }

        return Of(model, [kw], [least.Shares], [least.TripShortfallKwh], least.LimitReached);
    }

    private static HouseholdLeast Of(HouseholdModel model, HouseholdRelaxation relaxation)
    {
        var (segments, n) = (relaxation.Grid.SegmentOf, model.Problem.Count);
        var least = Of(
            model,
            [.. relaxation.Powers.WallKw.Select(own => Spread(own, segments, n))],
            [.. relaxation.Powers.Share.Select(own => Spread(own, segments, n))],
            relaxation.Shortfalls.TripKwh,
            relaxation.LimitReached);
        return least with { Shortfalls = relaxation.Shortfalls, Relaxed = relaxation, Model = model };
    }

    // What a run of equal intervals takes, each of them takes alike.
    private static double[] Spread(double[] own, int[] segmentOf, int n)
    {
        var values = new double[n];
        for (var i = 0; i < n; i++)
        {
            values[i] = own[segmentOf[i]];
        }

        return values;
    }

    private static HouseholdLeast Of(HouseholdModel model, double[][] kw, double[][] shares, double[][] tripKwh, bool limitReached)
    {
        var powers = new HouseholdPowers(kw.Length, model.Problem.Count);
        for (var c = 0; c < kw.Length; c++)
        {
            kw[c].CopyTo(powers.WallKw[c], 0);
            shares[c].CopyTo(powers.Share[c], 0);
        }

        var run = RunnableSchedule.Of(model, new(model.Problem), powers, tripKwh);
        return new(
            run.BillCost, run.CarbonCost, run.StoredKwh, run.Shortfalls.TripKwh, run.Shortfalls.TargetKwh, run.Shortfalls.FinalKwh, kw, shares, limitReached);
    }
}
