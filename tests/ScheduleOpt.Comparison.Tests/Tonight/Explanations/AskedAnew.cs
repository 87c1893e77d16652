using Google.OrTools.LinearSolver;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tests.Tonight.Explanations;

/// <summary>One car's question as a linear programme of its own, written down from the definition of the model: shares of time at full power, energy between two
/// bounds, shortfalls dearer than any energy. Shares nothing with the scheduler but the problem's numbers and the solver library.</summary>
internal static class AskedAnew
{
    // Above price * P / r of any interval in which anything is stored, or nearly.
    private const double Dear = 1e4;

    /// <summary>The least bill with so much stored at the end, and the sum of what goes unmet.</summary>
    public static (double Bill, double ShortKwh) Solve(ChargingProblem problem, double endKwh)
    {
        using var solver = Solver.CreateSolver("GLOP");
        var objective = solver.Objective();
        var (prices, shares, missing) = (new List<double>(), new List<Variable>(), new List<Variable>());
        var before = solver.MakeNumVar(problem.InitialKwh, problem.InitialKwh, "");
        var trip = 0;
        for (var i = 0; i <= problem.Count; i++)
        {
            for (; trip < problem.Departures.Length && problem.Departures[trip].Boundary == i; trip++)
            {
                AtLeast(solver, before, problem.Departures[trip].RequiredKwh, missing);
            }

            if (i == problem.Count)
            {
                break;
            }

            var after = solver.MakeNumVar(problem.LowerKwh[i + 1], problem.UpperKwh[i + 1], "");
            var balance = solver.MakeConstraint(-problem.DriveKwh[i], -problem.DriveKwh[i]);
            balance.SetCoefficient(after, 1);
            balance.SetCoefficient(before, -1);
            if (problem.DriveKwh[i] > 0)
            {
                var spared = solver.MakeNumVar(0, problem.DriveKwh[i], "");
                balance.SetCoefficient(spared, -1);
                missing.Add(spared);
            }
            else if (problem.NetKw[i] > 0)
            {
                var share = solver.MakeNumVar(0, 1, "");
                balance.SetCoefficient(share, -problem.NetKw[i] * problem.Hours[i]);
                shares.Add(share);
                prices.Add(problem.Price[i] * problem.WallKw[i] * problem.Hours[i]);
                objective.SetCoefficient(share, prices[^1]);
            }

            before = after;
        }

        AtLeast(solver, before, endKwh, missing);
        foreach (var one in missing)
        {
            objective.SetCoefficient(one, Dear);
        }

        objective.SetMinimization();
        Assert.Equal(Solver.ResultStatus.OPTIMAL, solver.Solve());
        return (shares.Select((s, k) => s.SolutionValue() * prices[k]).Sum(), missing.Sum(m => m.SolutionValue()));
    }

    private static void AtLeast(Solver solver, Variable stored, double kwh, List<Variable> missing)
    {
        var lacks = solver.MakeNumVar(0, double.PositiveInfinity, "");
        var wish = solver.MakeConstraint(kwh, double.PositiveInfinity);
        wish.SetCoefficient(stored, 1);
        wish.SetCoefficient(lacks, 1);
        missing.Add(lacks);
    }
}
