using Google.OrTools.Sat;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Benchmarks;

/// <summary>The household's integer programme for CP-SAT in its own integer units: watts, thousandths of an interval, 1e-4 Wh, 1e-8 of the currency.</summary>
/// <remarks>For measurement alone: convex terms, no minimum bill, no stops, no windows counted. Rounding to its units moves the objective by less than 1e-4.</remarks>
internal sealed class CpSatHousehold
{
    private const int Thousandths = 1000;
    private const double EnergyUnits = 1e7;
    private const double MoneyUnits = 1e8;

    private readonly HouseholdModel model;
    private readonly CpModel program = new();
    private readonly List<(IntVar Variable, long Factor)> cost = [];

    private CpSatHousehold(HouseholdModel model) => this.model = model;

    /// <summary>Objective, bound and whether it was proven.</summary>
    public static (double Objective, double Bound, bool Optimal) Solve(HouseholdModel model, double deterministicSeconds)
    {
        var household = new CpSatHousehold(model);
        household.Build();
        var solver = new CpSolver
        {
            StringParameters = FormattableString.Invariant(
                $"num_workers:1 random_seed:1 max_deterministic_time:{deterministicSeconds} relative_gap_limit:0.0005 max_time_in_seconds:60"),
        };
        var status = solver.Solve(household.program);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? (solver.ObjectiveValue / MoneyUnits, solver.BestObjectiveBound / MoneyUnits, status == CpSolverStatus.Optimal)
            : (double.NaN, double.NaN, false);
    }

    private void Build()
    {
        var problem = model.Problem;
        var n = problem.Count;
        var (cars, watts, on) = (model.Cars.Length, new IntVar?[model.Cars.Length, n], new BoolVar?[model.Cars.Length, n]);
        for (var c = 0; c < cars; c++)
        {
            AddCar(c, watts, on);
        }

        foreach (var limit in model.Limits)
        {
            for (var i = 0; i < n; i++)
            {
                var parts = limit.Cars.Select((c, m) => (watts[c, i], (long)Math.Round(limit.PerKw[m] * 1000))).Where(p => p.Item1 is not null).ToArray();
                if (parts.Length > 1)
                {
                    program.Add(LinearExpr.WeightedSum(parts.Select(p => p.Item1!), parts.Select(p => p.Item2)) <= (long)Math.Floor(limit.Most[i] * 1e6));
                }
            }
        }

        var import = new IntVar?[n];
        for (var i = 0; i < n; i++)
        {
            import[i] = AddImport(i, watts);
        }

        foreach (var term in model.Terms.OfType<PeakModel>())
        {
            AddPeak(term, import);
        }

        program.Minimize(LinearExpr.WeightedSum(cost.Select(p => p.Variable), cost.Select(p => p.Factor)));
    }

    private void AddCar(int c, IntVar?[,] watts, BoolVar?[,] on)
    {
        var car = model.Cars[c];
        var problem = car.Car.Problem;
        var k = 0;
        LinearExpr stored = LinearExpr.Constant((long)Math.Round(problem.InitialKwh * EnergyUnits));
        var share = new IntVar?[problem.Count];
        for (var i = 0; i < problem.Count; i++)
        {
            if (problem.Place[i] == Place.Home && car.MostKw[i] > 0)
            {
                var (least, most) = ((long)Math.Ceiling(car.LeastKw[i] * 1000), (long)Math.Floor(car.MostKw[i] * 1000));
                var p = watts[c, i] = program.NewIntVar(0, most, string.Empty);
                var y = share[i] = program.NewIntVar(0, Thousandths, string.Empty);
                var z = on[c, i] = program.NewBoolVar(string.Empty);
                program.Add(Thousandths * p >= least * y);
                program.Add(Thousandths * p <= most * y);
                program.Add(y <= Thousandths * z);
                var (perWatt, perShare) = (
                    (long)Math.Round(car.Efficiency * problem.Hours[i] * EnergyUnits / 1000),
                    (long)Math.Round(car.OverheadKw[i] * problem.Hours[i] * EnergyUnits / Thousandths));
                stored = stored + (perWatt * p) - (perShare * y);
                if (i > 1 && share[i - 1] is { } middle && share[i - 2] is not null)
                {
                    program.Add(middle >= Thousandths * (on[c, i - 2]! + on[c, i - 1]! + z) - (2 * Thousandths));
                }
            }

            var drive = (long)Math.Round(problem.DriveKwh[i] * EnergyUnits);
            var e = program.NewIntVar(
                Math.Min((long)Math.Round(problem.LowerKwh[i + 1] * EnergyUnits), (long)Math.Round(problem.UpperKwh[i + 1] * EnergyUnits)),
                (long)Math.Round(problem.UpperKwh[i + 1] * EnergyUnits),
                string.Empty);
            program.Add(stored - drive == e);
            stored = e;
            while (k < problem.Departures.Length && problem.Departures[k].Boundary <= i + 1)
            {
                if (problem.Departures[k++] is { } wish && wish.Boundary == i + 1)
                {
                    program.Add(e >= (long)Math.Round(wish.RequiredKwh * EnergyUnits));
                }
            }
        }

        var worth = program.NewIntVar(0, (long)Math.Round(problem.OrdinaryKwh * EnergyUnits), string.Empty);
        program.Add(stored >= worth);
        cost.Add((worth, -(long)Math.Round(problem.EndValuePerKwh * MoneyUnits / EnergyUnits)));
    }

    private IntVar? AddImport(int i, IntVar?[,] watts)
    {
        var problem = model.Problem;
        var taken = Enumerable.Range(0, model.Cars.Length).Select(c => watts[c, i]).OfType<IntVar>().ToArray();
        if (taken.Length == 0)
        {
            return null;
        }

        var (hours, most) = (problem.Hours[i] / 1000 * MoneyUnits, (long)Math.Ceiling(model.MostKw[i] * 1000));
        var surplus = (long)Math.Max(0, Math.Round(-model.BaseKw[i] * 1000));
        var all = LinearExpr.Sum(taken);
        var imported = program.NewIntVar(0, Math.Max(0, most - surplus), string.Empty);
        program.Add(imported >= all - surplus);
        foreach (var p in taken)
        {
            cost.Add((p, surplus > 0 ? (long)Math.Round(problem.ExportPrice[i] * hours) : 0));
        }

        cost.Add((imported, (long)Math.Round((problem.ImportPrice[i] + problem.CarbonPrice[i] - (surplus > 0 ? problem.ExportPrice[i] : 0)) * hours)));
        return imported;
    }

    private void AddPeak(PeakModel term, IntVar?[] import)
    {
        var peak = program.NewIntVar(0, (long)Math.Ceiling(term.Pieces.Pieces[^1].To * 1000), string.Empty);
        foreach (var window in term.Windows)
        {
            var (sum, fixedPart) = (new List<(IntVar, long)>(), -term.BilledKw * window.Total);
            for (var k = 0; k < window.Hours.Length; k++)
            {
                fixedPart += Math.Max(0, model.BaseKw[window.First + k]) * window.Hours[k];
                if (import[window.First + k] is { } above)
                {
                    sum.Add((above, (long)Math.Round(window.Hours[k] * 3600)));
                }
            }

            program.Add(LinearExpr.WeightedSum(sum.Select(p => p.Item1), sum.Select(p => p.Item2)) + (long)Math.Round(fixedPart * 3600 * 1000)
                <= (long)Math.Round(window.Total * 3600) * peak);
        }

        if (term.Pieces.Pieces.Count == 1)
        {
            cost.Add((peak, (long)Math.Round(term.Pieces.Pieces[0].Slope / 1000 * MoneyUnits)));
            return;
        }

        var highest = program.NewIntVar(0, (long)(1000 * MoneyUnits), string.Empty);
        foreach (var piece in term.Pieces.Pieces)
        {
            program.Add(highest >= ((long)Math.Round(piece.Slope / 1000 * MoneyUnits) * peak) + (long)Math.Round(piece.Fixed * MoneyUnits));
        }

        cost.Add((highest, 1));
    }
}
