using Google.OrTools.LinearSolver;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>The linear programme of steps 1 and 2 on the stages of a problem; the only file that builds a solver model.</summary>
/// <remarks>Variables and rows are listed in the README of this project. One solver per instance, one thread, disposed with it.</remarks>
internal sealed class LinearProgram : IDisposable
{
    // Room that a held sum of step 1 is given, so that rounding in the solver can't make step 2 infeasible. [kWh]
    private const double HeldWithin = 1e-9;
    private const int TimeLimitMilliseconds = 2000;

    private readonly Stages stages;
    private readonly Solver solver;
    private readonly Variable[] charged;
    private readonly Variable[] stored;
    private readonly Variable?[] tripShort;
    private readonly Variable?[] targetShort;
    private Variable? worth;

    private LinearProgram(Stages stages, SolverChoice choice, int? mostSteps = null)
    {
        this.stages = stages;
        solver = Solver.CreateSolver(choice == SolverChoice.Clp ? "CLP" : "GLOP");
        solver.SetTimeLimit(TimeLimitMilliseconds);
        if (mostSteps is { } steps)
        {
            solver.SetSolverSpecificParametersAsString($"max_number_of_iterations: {steps}");
        }

        charged = new Variable[stages.Columns.Length];
        stored = new Variable[stages.All.Count];
        tripShort = new Variable?[stages.All.Count];
        targetShort = new Variable?[stages.Problem.Departures.Length];
    }

    /// <summary>Whether the last solve proved its optimum; otherwise its values mean nothing.</summary>
    public bool IsOptimal { get; private set; }

    /// <summary>Energy that each column stores. [kWh]</summary>
    public double[] Charged => Array.ConvertAll(charged, v => v.SolutionValue());

    /// <summary>Objective of the last solve.</summary>
    public double Objective => solver.Objective().Value();

    /// <summary>Step 2 with the shortfalls of each departure held.</summary>
    public static LinearProgram ForCost(Stages stages, Shortfalls held, SolverChoice choice)
    {
        var program = new LinearProgram(stages, choice);
        program.AddBalance(
            trip => held.TripKwh[trip] > 0 ? double.PositiveInfinity : 0,
            held.TargetKwh,
            held.FinalKwh);
        for (var k = 0; k < held.TripKwh.Length; k++)
        {
            if (held.TripKwh[k] > 0)
            {
                program.Hold(program.TripVariables(k), held.TripKwh[k]);
            }
        }

        program.MinimiseCost();
        return program;
    }

    /// <summary>Step 1 with every shortfall free; see <see cref="LeastTotal"/> and <see cref="InTimeOrder"/>.</summary>
    /// <param name="stages">The stages of a problem.</param>
    /// <param name="heldFinal">By how much the energy asked for at the end may be missed. [kWh]</param>
    /// <param name="choice">The solver.</param>
    /// <param name="mostSteps">Simplex steps of GLOP after which a solve is given up; none: only the clock ends it.</param>
    public static LinearProgram ForShortfalls(Stages stages, double heldFinal, SolverChoice choice, int? mostSteps = null)
    {
        var program = new LinearProgram(stages, choice, mostSteps);
        program.AddBalance(_ => double.PositiveInfinity, null, heldFinal);
        return program;
    }

    /// <summary>Steps 1 and 2 for the least totals: the sum of trips, then the sum of wishes, then the cost with both sums held; null where a solve proved no optimum.</summary>
    public Shortfalls? LeastTotal()
    {
        if (!MinimiseAndHold([.. tripShort.OfType<Variable>()], out _) || !MinimiseAndHold([.. targetShort.OfType<Variable>()], out _))
        {
            return null;
        }

        MinimiseCost();
        return IsOptimal ? Read() : null;
    }

    /// <summary>Step 1 departure by departure: trips first, then targets; null where a solve proved no optimum.</summary>
    public Shortfalls? InTimeOrder()
    {
        var trips = new double[targetShort.Length];
        for (var k = 0; k < trips.Length; k++)
        {
            if (!MinimiseAndHold(TripVariables(k), out trips[k]))
            {
                return null;
            }
        }

        var targets = new double[targetShort.Length];
        for (var k = 0; k < targets.Length; k++)
        {
            if (!MinimiseAndHold(targetShort[k] is { } variable ? [variable] : [], out targets[k]))
            {
                return null;
            }
        }

        return new Shortfalls(trips, targets, 0);
    }

    public void Dispose() => solver.Dispose();

    private void AddBalance(Func<int, double> tripBound, double[]? heldTargets, double heldFinal)
    {
        var problem = stages.Problem;
        var columns = stages.Columns;
        var departure = 0;
        Variable? before = null;
        while (departure < problem.Departures.Length && problem.Departures[departure].Boundary == 0)
        {
            // A departure at the very start asks for what is there.
            if (heldTargets is null)
            {
                var missing = Math.Max(0, problem.Departures[departure].RequiredKwh - problem.InitialKwh);
                targetShort[departure] = solver.MakeNumVar(missing, double.PositiveInfinity, string.Empty);
            }

            departure++;
        }

        for (var s = 0; s < stages.All.Count; s++)
        {
            var stage = stages.All[s];
            var upper = problem.UpperKwh[stage.EndBoundary];
            var lower = Math.Min(problem.LowerKwh[stage.EndBoundary], upper);
            var last = s == stages.All.Count - 1;
            if (last && problem.FinalKwh is { } final)
            {
                lower = Math.Min(Math.Max(lower, final - heldFinal), upper);
            }

            var state = stored[s] = solver.MakeNumVar(lower, upper, string.Empty);
            for (; departure < problem.Departures.Length && problem.Departures[departure].Boundary == stage.EndBoundary; departure++)
            {
                var required = problem.Departures[departure].RequiredKwh;
                if (heldTargets is null)
                {
                    var missing = targetShort[departure] = solver.MakeNumVar(0, double.PositiveInfinity, string.Empty);
                    var wish = solver.MakeConstraint(required, double.PositiveInfinity);
                    wish.SetCoefficient(state, 1);
                    wish.SetCoefficient(missing, 1);
                }
                else
                {
                    lower = Math.Min(Math.Max(lower, required - heldTargets[departure]), upper);
                    state.SetLb(lower);
                }
            }

            var known = (s == 0 ? problem.InitialKwh : 0) - stage.DriveKwh;
            var balance = solver.MakeConstraint(known, known);
            balance.SetCoefficient(state, 1);
            if (before is not null)
            {
                balance.SetCoefficient(before, -1);
            }

            for (var c = stage.FirstColumn; c < stage.EndColumn; c++)
            {
                charged[c] = solver.MakeNumVar(0, columns[c].CapacityKwh, string.Empty);
                balance.SetCoefficient(charged[c], -1);
            }

            if (stage.DriveKwh > 0 && stage.Trip >= 0 && tripBound(stage.Trip) > 0)
            {
                var missing = tripShort[s] = solver.MakeNumVar(0, stage.DriveKwh, string.Empty);
                balance.SetCoefficient(missing, -1);
            }

            before = state;
        }
    }

    private Variable[] TripVariables(int trip)
    {
        var variables = new List<Variable>();
        for (var s = 0; s < stages.All.Count; s++)
        {
            if (stages.All[s].Trip == trip && tripShort[s] is { } variable)
            {
                variables.Add(variable);
            }
        }

        return [.. variables];
    }

    private void Hold(Variable[] variables, double sum)
    {
        var row = solver.MakeConstraint(double.NegativeInfinity, sum + HeldWithin);
        foreach (var variable in variables)
        {
            row.SetCoefficient(variable, 1);
        }
    }

    /// <summary>Minimises a sum of shortfalls and holds it. Where no optimum is proved nothing is held: a sum that means nothing would be taken for the least.</summary>
    private bool MinimiseAndHold(Variable[] variables, out double sum)
    {
        sum = 0;
        if (variables.Length == 0)
        {
            return true;
        }

        var objective = solver.Objective();
        objective.Clear();
        foreach (var variable in variables)
        {
            objective.SetCoefficient(variable, 1);
        }

        objective.SetMinimization();
        Solve();
        if (!IsOptimal)
        {
            return false;
        }

        sum = objective.Value();
        Hold(variables, sum);
        return true;
    }

    private void MinimiseCost()
    {
        var problem = stages.Problem;
        var columns = stages.Columns;
        var objective = solver.Objective();
        objective.Clear();
        for (var c = 0; c < charged.Length; c++)
        {
            objective.SetCoefficient(charged[c], columns[c].UnitCost);
        }

        if (problem.EndValuePerKwh > 0)
        {
            if (worth is null)
            {
                worth = solver.MakeNumVar(0, problem.OrdinaryKwh, string.Empty);
                var row = solver.MakeConstraint(0, double.PositiveInfinity);
                row.SetCoefficient(stored[^1], 1);
                row.SetCoefficient(worth, -1);
            }

            objective.SetCoefficient(worth, -problem.EndValuePerKwh);
        }

        objective.SetMinimization();
        Solve();
    }

    private void Solve() => IsOptimal = solver.Solve() == Solver.ResultStatus.OPTIMAL;

    private Shortfalls Read()
    {
        var trips = new double[targetShort.Length];
        for (var s = 0; s < tripShort.Length; s++)
        {
            if (tripShort[s] is { } variable)
            {
                trips[stages.All[s].Trip] += variable.SolutionValue();
            }
        }

        return new Shortfalls(trips, Array.ConvertAll(targetShort, v => v?.SolutionValue() ?? 0), 0);
    }
}
