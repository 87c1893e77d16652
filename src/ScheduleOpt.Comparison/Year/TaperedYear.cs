using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Comparison.Year;

/// <summary>What a year's plan becomes under the taper, which it does not know.</summary>
/// <remarks>
/// First as planned, what is missing made up before the departure that misses it (<see cref="TaperMakeUp"/>): those hours may be the dearest of the stay. The next
/// runs are planned with the rates that the taper left on the path of the run before, and follow the plan's energy: the car charges in the
/// intervals of the plan up to what the plan has at their ends.
/// </remarks>
internal static class TaperedYear
{
    private const int Rounds = 2;

    /// <summary>The runs of a plan, that of the plan itself first.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="plan">Its plan, shares of whole intervals.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    public static IEnumerable<ReplayResult> Runs(ChargingProblem problem, CoupledPlan plan, ShortfallOrder order)
    {
        var run = TaperMakeUp.Lengthened(problem, plan.Best, plan.Most).Replay;
        yield return run;
        for (var round = 0; round < Rounds; round++)
        {
            var again = Scheduler.Solve(OnPath(problem, plan.Solved, run.StoredKwh), SolverChoice.Direct, order);
            run = TaperMakeUp.Lengthened(problem, again with { Shares = Followed(problem, again, plan.Most) }, plan.Most).Replay;
            yield return run;
        }
    }

    /// <summary>A problem with the mean rates and powers that full power has over whole intervals which begin on a path.</summary>
    private static ChargingProblem OnPath(ChargingProblem problem, ChargingProblem solved, double[] storedKwh)
    {
        var (wall, net) = ((double[])solved.WallKw.Clone(), (double[])solved.NetKw.Clone());
        for (var i = 0; i < net.Length; i++)
        {
            if (net[i] > 0 && problem.Place[i] != Place.Road)
            {
                var charged = Replay.Charge(problem, i, storedKwh[i], problem.Hours[i]);
                wall[i] *= charged.WallKwh / (problem.WallKw[i] * problem.Hours[i]);
                net[i] *= (charged.StoredKwh - storedKwh[i]) / (problem.NetKw[i] * problem.Hours[i]);
            }
        }

        return solved with { WallKw = wall, NetKw = net };
    }

    private static double[] Followed(ChargingProblem problem, LeastCost plan, double[]? most)
    {
        var (run, shares) = (new ReplayRun(problem), new double[problem.Count]);
        for (var i = 0; i < shares.Length; i++)
        {
            if (plan.Shares[i] > 0 && problem.NetKw[i] > 0)
            {
                var goal = Math.Min(problem.UsableKwh, plan.StoredKwh[i + 1]);
                shares[i] = Math.Min(most?[i] ?? 1, ChargingInverse.HoursTo(problem, i, run.StoredKwh, goal) / problem.Hours[i]);
            }

            run.Step(shares[i]);
        }

        return shares;
    }
}
