using Google.OrTools.LinearSolver;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>The programme of a household on segments: powers and what is held; energy and limits, running and costs are in the other parts.</summary>
/// <remarks>GLOP without integers, or CLP where it has no answer; SCIP with. One solver per solve of SCIP, disposed with this; variables and rows are listed in the README of this project.</remarks>
internal sealed partial class HouseholdProgram : IDisposable
{
    private const double Infinity = double.PositiveInfinity;

    // Room that a held shortfall is given, so that rounding in the solver can't make the next step infeasible. [kWh]
    private const double HeldWithin = 1e-9;

    private readonly HouseholdModel model;
    private readonly Segments grid;
    private readonly OnOffPlan plan;
    private readonly SolveLimit limit;
    private readonly Solver solver;
    private readonly bool integers;
    private readonly bool running;
    private readonly Variable?[][] share;
    private readonly Variable?[][] power;
    private readonly Variable?[][] on;
    private readonly List<Variable>[][] tripShort;
    private readonly LinearSum[][] targetShort;
    private readonly LinearSum[] finalShort;
    private readonly LinearSum below = new();
    private readonly Variable[] last;
    private readonly Variable?[] peaks;

    private HouseholdProgram(OnOffPlan plan, bool running, bool integers, SolveLimit limit, bool byClp)
    {
        (this.plan, grid, model, this.running, this.integers, this.limit) = (plan, plan.Grid, plan.Grid.Model, running, integers, limit);
        solver = Solver.CreateSolver(integers ? "SCIP" : byClp ? "CLP" : "GLOP");
        var cars = model.Cars;
        share = [.. cars.Select(_ => new Variable?[grid.Count])];
        power = [.. cars.Select(_ => new Variable?[grid.Count])];
        on = [.. cars.Select(_ => new Variable?[grid.Count])];
        tripShort = [.. cars.Select(c => c.Car.Problem.Departures.Select(_ => new List<Variable>()).ToArray())];
        targetShort = [.. cars.Select(c => c.Car.Problem.Departures.Select(_ => new LinearSum()).ToArray())];
        finalShort = [.. cars.Select(_ => new LinearSum())];
        last = new Variable[cars.Length];
        peaks = new Variable?[model.Terms.Length];
    }

    /// <summary>How the last solve ended.</summary>
    public Solver.ResultStatus Status { get; private set; }

    /// <summary>Whether the last solve found a solution.</summary>
    public bool HasSolution => Status is Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.FEASIBLE;

    /// <summary>Whether a linear programme ended with neither an optimum nor a proof that there is none.</summary>
    public bool HasNoAnswer => !integers && LimitReached;

    /// <summary>Whether the last solve was stopped by a limit.</summary>
    public bool LimitReached => Status is not (Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.INFEASIBLE);

    /// <summary>Whether the last solve was not begun, being too large for what is left of the work.</summary>
    public bool IsTooLarge { get; private set; }

    public double Objective => solver.Objective().Value();

    /// <summary>What the last solve proved that no solution goes below.</summary>
    public double Bound => integers ? solver.Objective().BestBound() : Objective;

    /// <summary>The programme of a plan.</summary>
    /// <param name="plan">What is decided already.</param>
    /// <param name="held">Shortfalls that are held; none: free.</param>
    /// <param name="order">Which of them are held one by one.</param>
    /// <param name="withCosts">Whether costs are minimised; otherwise only shortfalls can be.</param>
    /// <param name="limit">When integers are given up.</param>
    /// <param name="room">Room that held shortfalls are given. [kWh]</param>
    /// <param name="byClp">Whether CLP solves it where it has no integers: where GLOP had no answer.</param>
    public static HouseholdProgram Of(
        OnOffPlan plan, HouseholdShortfalls? held, ShortfallOrder order, bool withCosts, SolveLimit limit, double room = HeldWithin, bool byClp = false)
    {
        var running = plan.Modes.Any(m => m.Contains(OnOff.Integer));
        var model = plan.Grid.Model;
        var choosing = withCosts && (model.Terms.Any(t => !t.Pieces.IsConvex) || (!plan.FreeFlows && plan.Imports is null && model.ChoosesFlow.Any(f => f)));
        var program = new HouseholdProgram(plan, running, running || choosing, limit, byClp);
        for (var c = 0; c < model.Cars.Length; c++)
        {
            program.AddPower(c);
            program.AddEnergy(c, held, order);
            program.AddOn(c);
        }

        for (var c = 0; running && c < model.Cars.Length; c++)
        {
            program.AddRunning(c);
        }

        if (plan.Peaks is { } peaks)
        {
            program.AddPeakRooms(peaks);
        }

        program.AddLimits();
        if (held is not null)
        {
            program.Hold(held, order, room);
        }

        if (withCosts)
        {
            program.AddCosts();
        }

        return program;
    }

    public void Dispose()
    {
        solver.Dispose();
        if (integers)
        {
            FreedMemory.AfterSearch();
        }
    }

    /// <summary>Power and share at the last solution, by car and segment. [kW; 1]</summary>
    public HouseholdPowers Powers()
    {
        var cars = model.Cars.Length;
        var powers = new HouseholdPowers(cars, grid.Count);
        for (var c = 0; c < cars; c++)
        {
            for (var s = 0; s < grid.Count; s++)
            {
                if (plan.Modes[c][s] == OnOff.Off)
                {
                    continue;
                }

                var y = plan.Modes[c][s] == OnOff.On ? 1 : Math.Clamp(share[c][s]!.SolutionValue(), 0, 1);
                var i = grid.First[s];
                var kw = power[c][s] is { } p ? p.SolutionValue() : y * FullKw(c, s);
                powers.Share[c][s] = y;
                powers.WallKw[c][s] = Math.Clamp(kw, y * model.Cars[c].LeastKw[i], y * model.Cars[c].MostKw[i]);
            }
        }

        return powers;
    }

    /// <summary>Shortfalls at the last solution.</summary>
    public HouseholdShortfalls Shortfalls() =>
        new(Math.Max(0, below.Value()), TripKwh(), TargetKwh(), [.. finalShort.Select(final => Math.Max(0, final.Value()))]);

    public double[][] TripKwh() => [.. tripShort.Select(car => car.Select(trip => Math.Max(0, trip.Sum(v => v.SolutionValue()))).ToArray())];

    public double[][] TargetKwh() => [.. targetShort.Select(car => car.Select(target => Math.Max(0, target.Value())).ToArray())];

    /// <summary>How far the last solution's peaks lie above what is billed anyway, by term; 0 for other terms. [kW]</summary>
    public double[] PeaksKw() => [.. peaks.Select(p => p?.SolutionValue() ?? 0)];

    /// <summary>In how much of each segment cars are on at the last solution, where that says more than its share; by car and segment.</summary>
    public double[][] OnShares() => [.. Enumerable.Range(0, on.Length).Select(c => Enumerable.Range(0, grid.Count).Select(s => OnShare(c, s)).ToArray())];

    private double OnShare(int c, int s) =>
        plan.Modes[c][s] == OnOff.Off ? 0 : (on[c][s] ?? share[c][s]) is { } z ? Math.Clamp(z.SolutionValue(), 0, 1) : 1;

    /// <summary>Minimises a sum of shortfalls; null where the solver has no solution, though there always is one.</summary>
    public double? Minimise(LinearSum sum)
    {
        if (sum.IsConstant)
        {
            return sum.Constant;
        }

        sum.Minimise(solver);
        Solve();
        return HasSolution && !HasNoAnswer ? Objective : null;
    }

    /// <summary>Holds a sum of shortfalls; nothing can be read of the last solution afterwards.</summary>
    public void Hold(LinearSum sum, double most)
    {
        if (!sum.IsConstant)
        {
            sum.Require(solver, -Infinity, most + HeldWithin);
        }
    }

    public LinearSum BelowSum => below;

    public LinearSum TripSum(int car, int departure)
    {
        var sum = new LinearSum();
        foreach (var variable in tripShort[car][departure])
        {
            sum.Add(variable, 1);
        }

        return sum;
    }

    public LinearSum TargetSum(int car, int departure) => targetShort[car][departure];

    public LinearSum FinalSum(int car) => finalShort[car];

    /// <summary>All shortfalls in one sum: bounds before trips before wishes, and in time order what is due sooner first, as far as weights can say that.</summary>
    public LinearSum AllShortfalls(ShortfallOrder order)
    {
        const double boundsFirst = 1000;
        const double tripsFirst = 30;
        const double soonerFirst = 0.02;
        var sum = new LinearSum();
        sum.Add(below, boundsFirst);
        var departures = model.DeparturesInOrder().ToArray();
        for (var n = 0; n < departures.Length; n++)
        {
            var (c, k) = departures[n];
            var weight = order == ShortfallOrder.InTimeOrder ? 1 + (soonerFirst * (departures.Length - n) / departures.Length) : 1;
            sum.Add(TripSum(c, k), tripsFirst * weight);
            sum.Add(targetShort[c][k], weight);
        }

        return sum;
    }

    /// <summary>Solves for what was asked last.</summary>
    public void Solve()
    {
        var began = solver.WallTime();
        solver.SetTimeLimit(integers ? limit.IntegersLeftMilliseconds : limit.LeftMilliseconds);
        if (!integers)
        {
            Status = solver.Solve();
            limit.Work?.AddLinear(solver.NumConstraints(), solver.Iterations(), solver.WallTime() - began);
            return;
        }

        IsTooLarge = running && !limit.MayBegin(solver.NumConstraints());
        if (IsTooLarge)
        {
            Status = Solver.ResultStatus.NOT_SOLVED;
            return;
        }

        solver.SetSolverSpecificParametersAsString(limit.ScipParameters(solver.NumConstraints(), IsLarge));
        using var parameters = new MPSolverParameters();
        parameters.SetDoubleParam(MPSolverParameters.DoubleParam.RELATIVE_MIP_GAP, limit.RelativeGap);
        Status = solver.Solve(parameters);
        limit.Work?.AddIntegers(solver.NumConstraints(), solver.Iterations(), solver.Nodes(), solver.WallTime() - began);
    }

    /// <summary>Whether its root alone takes long: many rows and integers, or of several cars over more intervals than a night has at 5 minutes many integers alone.</summary>
    private bool IsLarge
    {
        get
        {
            // Measured on 12 weeks and 22 requests (28 November 2026).
            const int night = 288, many = 450, rowsAnInteger = 4, large = 5500;
            var count = plan.Modes.Sum(car => car.Count(mode => mode == OnOff.Integer));
            return solver.NumConstraints() + (rowsAnInteger * count) > large || (count > many && model.Cars.Length > 1 && model.Problem.Count > night);
        }
    }

    private double FullKw(int car, int segment) =>
        plan.FixedKw is { } kw && !double.IsNaN(kw[car][segment]) ? kw[car][segment] : model.Cars[car].MostKw[grid.First[segment]];

    private bool HasOwnPower(int car, int segment)
    {
        var i = grid.First[segment];
        var power = model.Cars[car];
        return power.MostKw[i] > power.LeastKw[i] && !(plan.FixedKw is { } kw && !double.IsNaN(kw[car][segment]));
    }

    /// <summary>Adds the average wall power of a car in a segment. [kW]</summary>
    private void AddWall(LinearSum sum, int c, int s, double factor)
    {
        if (plan.Modes[c][s] == OnOff.Off)
        {
            return;
        }

        if (power[c][s] is { } p)
        {
            sum.Add(p, factor);
        }
        else
        {
            AddShare(sum, c, s, factor * FullKw(c, s));
        }
    }

    private void AddShare(LinearSum sum, int c, int s, double factor)
    {
        if (share[c][s] is { } y)
        {
            sum.Add(y, factor);
        }
        else if (plan.Modes[c][s] == OnOff.On)
        {
            sum.Add(factor);
        }
    }

    private void AddPower(int c)
    {
        var car = model.Cars[c];
        for (var s = 0; s < grid.Count; s++)
        {
            var mode = plan.Modes[c][s];
            if (mode == OnOff.Off)
            {
                continue;
            }

            var i = grid.First[s];
            var own = HasOwnPower(c, s);
            if (mode == OnOff.On)
            {
                power[c][s] = own ? solver.MakeNumVar(car.LeastKw[i], car.MostKw[i], string.Empty) : null;
                continue;
            }

            var y = share[c][s] = solver.MakeNumVar(0, 1, string.Empty);
            if (!own)
            {
                continue;
            }

            var p = power[c][s] = solver.MakeNumVar(0, car.MostKw[i], string.Empty);
            var least = solver.MakeConstraint(0, Infinity);
            least.SetCoefficient(p, 1);
            least.SetCoefficient(y, -car.LeastKw[i]);
            var most = solver.MakeConstraint(-Infinity, 0);
            most.SetCoefficient(p, 1);
            most.SetCoefficient(y, -car.MostKw[i]);
        }
    }

    private void Hold(HouseholdShortfalls held, ShortfallOrder order, double room)
    {
        Held(below, held.BelowKwh);
        var (trips, targets) = (new LinearSum(), new LinearSum());
        for (var c = 0; c < model.Cars.Length; c++)
        {
            for (var k = 0; k < tripShort[c].Length; k++)
            {
                if (order == ShortfallOrder.LeastTotal)
                {
                    trips.Add(TripSum(c, k), 1);
                    targets.Add(targetShort[c][k], 1);
                }
                else
                {
                    Held(TripSum(c, k), held.TripKwh[c][k]);
                    Held(targetShort[c][k], held.TargetKwh[c][k]);
                }
            }

            Held(finalShort[c], held.FinalKwh[c]);
        }

        Held(trips, held.Trips);
        Held(targets, held.Targets);

        void Held(LinearSum sum, double most)
        {
            if (!sum.IsConstant)
            {
                sum.Require(solver, -Infinity, most + room);
            }
        }
    }
}
