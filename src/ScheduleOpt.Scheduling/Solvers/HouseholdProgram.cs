using Google.OrTools.LinearSolver;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>The programme of a household on segments: energy, limits and running; its costs are in the other part.</summary>
/// <remarks>GLOP without integers, SCIP with. One solver per solve of SCIP, disposed with this; variables and rows are listed in the README of this project.</remarks>
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
    private readonly Variable?[][] share;
    private readonly Variable?[][] power;
    private readonly Variable?[][] on;
    private readonly List<Variable>[][] tripShort;
    private readonly LinearSum[][] targetShort;
    private readonly LinearSum[] finalShort;
    private readonly LinearSum below = new();
    private readonly Variable[] last;

    private HouseholdProgram(OnOffPlan plan, bool integers, SolveLimit limit)
    {
        (this.plan, grid, model, this.integers, this.limit) = (plan, plan.Grid, plan.Grid.Model, integers, limit);
        solver = Solver.CreateSolver(integers ? "SCIP" : "GLOP");
        solver.SetTimeLimit(limit.GuardMilliseconds);
        var cars = model.Cars;
        share = [.. cars.Select(_ => new Variable?[grid.Count])];
        power = [.. cars.Select(_ => new Variable?[grid.Count])];
        on = [.. cars.Select(_ => new Variable?[grid.Count])];
        tripShort = [.. cars.Select(c => c.Car.Problem.Departures.Select(_ => new List<Variable>()).ToArray())];
        targetShort = [.. cars.Select(c => c.Car.Problem.Departures.Select(_ => new LinearSum()).ToArray())];
        finalShort = [.. cars.Select(_ => new LinearSum())];
        last = new Variable[cars.Length];
    }

    /// <summary>How the last solve ended.</summary>
    public Solver.ResultStatus Status { get; private set; }

    /// <summary>Whether the last solve found a solution.</summary>
    public bool HasSolution => Status is Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.FEASIBLE;

    /// <summary>Whether the last solve was stopped by a limit.</summary>
    public bool LimitReached => Status is not (Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.INFEASIBLE);

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
    public static HouseholdProgram Of(
        OnOffPlan plan, HouseholdShortfalls? held, ShortfallOrder order, bool withCosts, SolveLimit limit, double room = HeldWithin)
    {
        var running = plan.Modes.Any(m => m.Contains(OnOff.Integer));
        var model = plan.Grid.Model;
        var choosing = withCosts && (model.Terms.Any(t => !t.Pieces.IsConvex) || model.ChoosesFlow.Any(f => f));
        var program = new HouseholdProgram(plan, running || choosing, limit);
        for (var c = 0; c < model.Cars.Length; c++)
        {
            program.AddPower(c);
            program.AddEnergy(c, held, order);
            if (running)
            {
                program.AddRunning(c);
            }
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

    public void Dispose() => solver.Dispose();

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
    public HouseholdShortfalls Shortfalls() => new(
        Math.Max(0, below.Value()),
        [.. tripShort.Select(car => car.Select(trip => Math.Max(0, trip.Sum(v => v.SolutionValue()))).ToArray())],
        [.. targetShort.Select(car => car.Select(target => Math.Max(0, target.Value())).ToArray())],
        [.. finalShort.Select(final => Math.Max(0, final.Value()))]);

    /// <summary>Minimises a sum of shortfalls.</summary>
    public double Minimise(LinearSum sum)
    {
        if (sum.IsConstant)
        {
            return sum.Constant;
        }

        sum.Minimise(solver);
        Solve();
        return HasSolution ? Objective : double.PositiveInfinity;
    }

    /// <summary>Minimises a sum of shortfalls and holds it.</summary>
    public double MinimiseAndHold(LinearSum sum)
    {
        var least = Minimise(sum);
        Hold(sum, least);
        return double.IsInfinity(least) ? 0 : least;
    }

    /// <summary>Holds a sum of shortfalls; nothing can be read of the last solution afterwards.</summary>
    public void Hold(LinearSum sum, double most)
    {
        if (!sum.IsConstant && !double.IsInfinity(most))
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

    /// <summary>Solves for what was asked last.</summary>
    public void Solve()
    {
        if (!integers)
        {
            Status = solver.Solve();
            return;
        }

        solver.SetSolverSpecificParametersAsString(limit.ScipParameters);
        using var parameters = new MPSolverParameters();
        parameters.SetDoubleParam(MPSolverParameters.DoubleParam.RELATIVE_MIP_GAP, limit.RelativeGap);
        Status = solver.Solve(parameters);
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

    private void AddEnergy(int c, HouseholdShortfalls? held, ShortfallOrder order)
    {
        // Of a least total, which departure bears it is free.
        bool MayBeShort(Func<HouseholdShortfalls, double[][]> of, int departure) =>
            held is null || of(held)[c][departure] > 0 || (order == ShortfallOrder.LeastTotal && of(held).Any(other => other.Any(kwh => kwh > 0)));

        var car = model.Cars[c];
        var problem = car.Car.Problem;
        var departures = problem.Departures;
        var k = 0;
        for (; k < departures.Length && departures[k].Boundary == 0; k++)
        {
            targetShort[c][k].Add(Math.Max(0, departures[k].RequiredKwh - problem.InitialKwh));
        }

        var balance = new LinearSum();
        balance.Add(problem.InitialKwh);
        var stageStart = 0;
        for (var s = 0; s < grid.Count; s++)
        {
            var (i, b) = (grid.First[s], grid.First[s + 1]);
            var road = problem.Place[i] == Place.Road;
            if (road)
            {
                AddDrive(c, k - 1, i, b, balance, k > 0 && MayBeShort(h => h.TripKwh, k - 1));
            }
            else if (plan.Modes[c][s] != OnOff.Off)
            {
                AddWall(balance, c, s, car.Efficiency * grid.Hours[s]);
                AddShare(balance, c, s, -car.OverheadKw[i] * grid.Hours[s]);
            }

            var departs = k < departures.Length && departures[k].Boundary == b;
            if (s < grid.Count - 1 && !departs && !road && problem.Place[b] != Place.Road
                && problem.LowerKwh[b] <= problem.LowerKwh[stageStart] && problem.UpperKwh[b] >= problem.UpperKwh[grid.First[s + 2]])
            {
                continue;
            }

            // A run in which no bound can bind ends here: one variable and one row.
            var upper = problem.UpperKwh[b];
            var lower = Math.Min(problem.LowerKwh[b], upper);
            var stored = solver.MakeNumVar(held is { BelowKwh: 0 } ? lower : double.NegativeInfinity, upper, string.Empty);
            if (held is not { BelowKwh: 0 })
            {
                var missing = solver.MakeNumVar(0, Infinity, string.Empty);
                var row = solver.MakeConstraint(lower, Infinity);
                row.SetCoefficient(stored, 1);
                row.SetCoefficient(missing, 1);
                below.Add(missing, 1);
            }

            for (; k < departures.Length && departures[k].Boundary == b; k++)
            {
                AddWish(stored, departures[k].RequiredKwh, MayBeShort(h => h.TargetKwh, k), targetShort[c][k]);
            }

            balance.Add(stored, -1);
            balance.Require(solver, 0, 0);
            balance = new LinearSum();
            balance.Add(stored, 1);
            last[c] = stored;
            stageStart = b;
        }

        if (problem.FinalKwh is { } final)
        {
            AddWish(last[c], final, held is null || held.FinalKwh[c] > 0, finalShort[c]);
        }
    }

    private void AddWish(Variable stored, double required, bool mayMiss, LinearSum shortfall)
    {
        if (!mayMiss)
        {
            stored.SetLb(Math.Min(Math.Max(stored.Lb(), required), stored.Ub()));
            return;
        }

        var missing = solver.MakeNumVar(0, Infinity, string.Empty);
        var row = solver.MakeConstraint(required, Infinity);
        row.SetCoefficient(stored, 1);
        row.SetCoefficient(missing, 1);
        shortfall.Add(missing, 1);
    }

    private void AddDrive(int c, int trip, int from, int until, LinearSum balance, bool mayBeShort)
    {
        var drive = 0.0;
        for (var i = from; i < until; i++)
        {
            drive += model.Problem.Cars[c].Problem.DriveKwh[i];
        }

        balance.Add(-drive);
        if (drive > 0 && mayBeShort)
        {
            var missing = solver.MakeNumVar(0, drive, string.Empty);
            tripShort[c][trip].Add(missing);
            balance.Add(missing, 1);
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

    private void AddLimits()
    {
        foreach (var shared in model.Limits)
        {
            for (var s = 0; s < grid.Count; s++)
            {
                var i = grid.First[s];
                var sum = new LinearSum();
                var open = 0;
                for (var m = 0; m < shared.Cars.Length; m++)
                {
                    var c = shared.Cars[m];
                    if (plan.Modes[c][s] != OnOff.Off && model.Problem.Cars[c].Problem.Place[i] == Place.Home)
                    {
                        AddAgainstLimit(sum, c, s, shared.PerKw[m]);
                        open++;
                    }
                }

                // A car alone is held by its own most.
                if (open > 1 && !shared.IsSlack(model.Cars, i))
                {
                    sum.Require(solver, -Infinity, shared.Most[i]);
                }
            }
        }
    }

    /// <summary>What a car counts towards a limit: its average where that is all that is known, its power while on where running is decided.</summary>
    private void AddAgainstLimit(LinearSum sum, int c, int s, double factor)
    {
        if (power[c][s] is not null || plan.Modes[c][s] is OnOff.Relaxed or OnOff.On)
        {
            AddWall(sum, c, s, factor);
        }
        else if (plan.Modes[c][s] == OnOff.Edge)
        {
            sum.Add(factor * FullKw(c, s));
        }
        else
        {
            sum.Add(On(c, s), factor * FullKw(c, s));
        }
    }
}
