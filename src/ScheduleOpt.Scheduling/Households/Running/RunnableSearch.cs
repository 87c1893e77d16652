using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Collects schedules that can be run and keeps the best: on and off are decided, then the programme is solved again for powers.</summary>
internal sealed class RunnableSearch(HouseholdModel model, ShortfallOrder order, HouseholdShortfalls least, SolveLimit limit)
{
    /// <summary>The least share of an interval that counts as on.</summary>
    public const double OnAbove = 1e-6;

    private const int MostSides = 2;

    // Terms that are not convex need the binaries of flows.
    private readonly bool choosesSides = model.ChoosesFlow.Any(f => f) && model.Terms.All(t => t.Pieces.IsConvex);
    private readonly Segments unmerged = Segments.Unmerged(model);
    private readonly HouseholdCost cost = new(model.Problem);
    private readonly HashSet<string> seen = [];

    public RunnableSchedule? Best { get; private set; }

    /// <summary>On and off of the best, by car and interval.</summary>
    public bool[][]? BestOn { get; private set; }

    /// <summary>What went unmet when free time was looked for last; none: never.</summary>
    public HouseholdShortfalls? Filled { get; set; }

    public Segments Unmerged => unmerged;

    /// <summary>Tries a relaxed solution rounded in one style.</summary>
    public RunnableSchedule? Try(Segments grid, HouseholdPowers powers, RoundingStyle style) => Try(OnOffRounding.On(grid, powers, style));

    /// <summary>Tries a solution by integers: on and off rounded, and its own currents where they must be whole.</summary>
    /// <param name="grid">Its segments.</param>
    /// <param name="powers">By car and segment.</param>
    /// <param name="until">For each car, the boundary up to which integers decided.</param>
    public void TryIntegers(Segments grid, HouseholdPowers powers, int[] until)
    {
        var on = OnOffRounding.On(grid, powers, new(0, Early: false, 0), until);
        Try(on);
        if (WholeAmperes.Wanted(model))
        {
            TryWhole(on, grid.Expanded(powers));
        }
        else if (choosesSides && Solve(DecidedPlan.Of(unmerged, on) with { Imports = SidesOf(grid.Expanded(powers)) }) is { } found)
        {
            Keep(found, on);
        }
    }

    /// <summary>Tries on and off as decided; null if it was tried before or can't be solved.</summary>
    public RunnableSchedule? Try(bool[][] on)
    {
        if (!IsNew(on))
        {
            return null;
        }

        var found = Solve(on, null);
        if (found is null && StorageRoom.Keep(model, on) is var less && IsNew(less))
        {
            (on, found) = (less, Solve(less, null));
        }

        if (found is null || !WholeAmperes.Wanted(model))
        {
            return found is null ? null : Keep(found, on);
        }

        return IsOfNoUse(found) ? null : TryWhole(on, found.Powers);
    }

    /// <summary>Whether whole amperes, which cost no less than these, can be neither best nor nearly so.</summary>
    private bool IsOfNoUse(RunnableSchedule found) =>
        !choosesSides && Best is { } best && found.Shortfalls.Compare(best.Shortfalls, model, order) is var compared && (compared > 0 || (compared == 0 && found.Objective > FewerWindows.Most(best)));

    /// <summary>Charging on arrival as far as rules and limits let it: what needs no programme.</summary>
    public void TryOnArrival()
    {
        var nothing = HouseholdShortfalls.None(model).TripKwh;
        Try(ArrivalSchedule.Of(model), nothing);

        // With everything off nothing can go wrong but shortfalls.
        if (Best is null)
        {
            Keep(RunnableSchedule.Of(model, cost, new(model.Cars.Length, model.Problem.Count), nothing), [.. model.Cars.Select(_ => new bool[model.Problem.Count])]);
        }
    }

    /// <summary>Powers from elsewhere that keep rules and shared limits.</summary>
    /// <param name="powers">By car and interval.</param>
    /// <param name="tripKwh">What is charged on the way, by car and departure. [kWh]</param>
    public void Try(HouseholdPowers powers, double[][] tripKwh)
    {
        var run = RunnableSchedule.Of(model, cost, powers, tripKwh);
        if (run.KeepsUpperBounds(model))
        {
            Keep(run, OnOffRounding.On(model, powers));
        }
    }

    private RunnableSchedule? TryWhole(bool[][] on, HouseholdPowers powers)
    {
        RunnableSchedule? best = null;
        var tried = new List<double[][]>();
        foreach (var rounding in new[] { AmpereRounding.Up, AmpereRounding.Nearest, AmpereRounding.Down })
        {
            var kw = WholeAmperes.Fixed(model, powers, on, rounding);
            if (tried.Any(other => other.Zip(kw).All(car => car.First.AsSpan().SequenceEqual(car.Second))))
            {
                continue;
            }

            tried.Add(kw);
            if (Solve(on, kw) is { } whole && whole.IsBetterThan(best, model, order))
            {
                best = whole;
            }
        }

        return best is null ? null : Keep(best, on);
    }

    private bool IsNew(bool[][] on) => seen.Add(string.Join('|', on.Select(car => new string([.. car.Select(o => o ? '1' : '0')]))));

    private RunnableSchedule Keep(RunnableSchedule found, bool[][] on)
    {
        if (found.IsBetterThan(Best, model, order))
        {
            (Best, BestOn) = (found, on);
        }

        return found;
    }

    private RunnableSchedule? Solve(bool[][] on, double[][]? fixedKw)
    {
        var plan = DecidedPlan.Of(unmerged, on, fixedKw);
        if (!choosesSides)
        {
            return Solve(plan);
        }

        // Where export earns more than import costs, each interval is priced by the side it is likely on; then by the side it was on, while that helps.
        var sides = Sides((c, i) => on[c][i] ? model.Cars[c].MostKw[i] : 0);
        var found = Solve(plan with { Imports = sides });
        for (var again = 0; found is not null && again < MostSides; again++)
        {
            var next = SidesOf(found.Powers);
            if (next.SequenceEqual(sides) || Solve(plan with { Imports = next }) is not { } other || !other.IsBetterThan(found, model, order))
            {
                break;
            }

            (found, sides) = (other, next);
        }

        return found;
    }

    private RunnableSchedule? Solve(OnOffPlan plan)
    {
        // Where a schedule is known that leaves no more unmet than must be, one that leaves more is of no use.
        var optimum = Best is { } best && best.Shortfalls.Compare(least, model, order) <= 0
            ? StrictOrder.Costs(plan, least, order, limit, room: null)
            : StrictOrder.Solve(plan, order, limit, least, Best?.Shortfalls);
        // Where powers leave no choice the programme may go below a lower bound to keep an upper one; a car can't.
        return optimum.IsSolved && RunnableSchedule.Of(model, cost, optimum.Powers, optimum.Shortfalls.TripKwh) is var run && run.KeepsUpperBounds(model) ? run : null;
    }

    private bool[] SidesOf(HouseholdPowers powers) => Sides((c, i) => powers.WallKw[c][i]);

    private bool[] Sides(Func<int, int, double> kw)
    {
        var imports = new bool[model.Problem.Count];
        for (var i = 0; i < imports.Length; i++)
        {
            var sum = model.BaseKw[i];
            for (var c = 0; c < model.Cars.Length && model.ChoosesFlow[i]; c++)
            {
                sum += model.Problem.Cars[c].Problem.Place[i] == Place.Home ? kw(c, i) : 0;
            }

            imports[i] = sum > 0;
        }

        return imports;
    }
}
