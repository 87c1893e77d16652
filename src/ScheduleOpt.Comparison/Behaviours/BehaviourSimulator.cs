using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>Runs a behaviour without help through a problem, on the scheduler's own simulator.</summary>
public static class BehaviourSimulator
{
    /// <summary>Decides each interval from what has happened so far.</summary>
    /// <param name="problem">The problem; prices and limits play no part.</param>
    /// <param name="behaviour">The behaviour.</param>
    public static BehaviourRun Run(ChargingProblem problem, UnaidedBehaviour behaviour)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(behaviour);
        var run = new ReplayRun(problem);
        var shares = new double[problem.Count];
        foreach (var stay in HomeStay.Of(problem))
        {
            Away(problem, run, stay.First, shares);
            AtHome(problem, run, stay, behaviour, shares);
        }

        Away(problem, run, problem.Count, shares);
        return new BehaviourRun(shares, run.Result);
    }

    private static void AtHome(ChargingProblem problem, ReplayRun run, HomeStay stay, UnaidedBehaviour behaviour, double[] shares)
    {
        var start = behaviour.StartOf(stay, problem, run.StoredKwh);
        for (var i = stay.First; i < stay.End; i++)
        {
            var sinceStart = Math.Max(0, (problem.Boundaries[i + 1] - start).TotalHours);
            var toMinimum = ChargingInverse.HoursTo(problem, i, run.StoredKwh, problem.MinimumKwh);
            Charge(problem, run, toMinimum + sinceStart, stay.GoalKwh, shares);
        }
    }

    private static void Away(ChargingProblem problem, ReplayRun run, int until, double[] shares)
    {
        var rest = 0.0;
        for (var i = run.Next; i < until; i++)
        {
            rest += problem.DriveKwh[i];
        }

        while (run.Next < until)
        {
            rest -= problem.DriveKwh[run.Next];
            if (problem.Place[run.Next] == Place.Stop)
            {
                var goal = Math.Min(problem.UsableKwh, problem.MinimumKwh + rest);
                Charge(problem, run, double.PositiveInfinity, goal, shares);
            }
            else
            {
                run.Step(0);
            }
        }
    }

    /// <summary>Charges in the next interval until the goal, for no longer than the hours allowed.</summary>
    private static void Charge(ChargingProblem problem, ReplayRun run, double allowedHours, double goal, double[] shares)
    {
        var i = run.Next;
        if (problem.NetKw[i] > 0)
        {
            var hours = Math.Min(allowedHours, ChargingInverse.HoursTo(problem, i, run.StoredKwh, goal));
            shares[i] = Math.Min(1, hours / problem.Hours[i]);
        }

        run.Step(shares[i]);
    }
}
