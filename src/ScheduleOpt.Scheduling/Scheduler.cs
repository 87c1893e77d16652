using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling;

/// <summary>Finds the least-cost shares: step 1, what must go unmet; step 2, what costs least.</summary>
public static class Scheduler
{
    /// <summary>Solves a problem. Every problem has an answer: what can't be met shows as a shortfall.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="choice">How step 2 is solved; the optimum is the same.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="reduction">Whether equal neighbours are merged; the optimum is the same.</param>
    /// <param name="equalCost">Which of two times is taken whose energy costs the same.</param>
    public static LeastCost Solve(
        ChargingProblem problem,
        SolverChoice choice = SolverChoice.Glop,
        ShortfallOrder order = ShortfallOrder.InTimeOrder,
        Reduction reduction = Reduction.Merged,
        EqualCost equalCost = EqualCost.ChargeEarly)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var stages = Stages.Of(problem, reduction);
        var shortfalls = Shortfalls.InTimeOrder(stages);
        if (order == ShortfallOrder.LeastTotal && shortfalls.Any)
        {
            // Only here does it matter who bears a shortfall: energy missed early may be spared later.
            using var program = LinearProgram.ForShortfalls(stages, shortfalls.FinalKwh, choice);
            return program.LeastTotal() is { } least
                ? Answer(stages, program.Charged, least, limitReached: false)
                : Answer(stages, DirectSweep.Solve(stages, shortfalls, equalCost), shortfalls, limitReached: true);
        }

        if (choice == SolverChoice.Direct)
        {
            return Answer(stages, DirectSweep.Solve(stages, shortfalls, equalCost), shortfalls, limitReached: false);
        }

        using (var program = LinearProgram.ForCost(stages, shortfalls, choice))
        {
            return program.IsOptimal
                ? Answer(stages, program.Charged, shortfalls, limitReached: false)
                : Answer(stages, DirectSweep.Solve(stages, shortfalls, equalCost), shortfalls, limitReached: true);
        }
    }

    /// <summary>Step 1 by the LP, departure by departure: the proof of the sweep, for tests.</summary>
    internal static Shortfalls? ShortfallsByLp(ChargingProblem problem, SolverChoice choice)
    {
        var stages = Stages.Of(problem, Reduction.Unmerged);
        using var program = LinearProgram.ForShortfalls(stages, Shortfalls.InTimeOrder(stages).FinalKwh, choice);
        return program.InTimeOrder();
    }

    private static LeastCost Answer(Stages stages, double[] charged, Shortfalls shortfalls, bool limitReached)
    {
        var problem = stages.Problem;
        var columns = stages.Columns;
        var cost = 0.0;
        for (var c = 0; c < charged.Length; c++)
        {
            // The solver may leave a bound by its tolerance.
            charged[c] = Math.Clamp(charged[c], 0, columns[c].CapacityKwh);
            cost += charged[c] * columns[c].UnitCost;
        }

        var shares = stages.Expand(charged);
        var stored = StoredKwh(problem, shares, shortfalls);
        var value = problem.EndValuePerKwh * Math.Min(problem.OrdinaryKwh, stored[^1]);
        return new LeastCost(
            shares, stored, shortfalls.TripKwh, shortfalls.TargetKwh, shortfalls.FinalKwh, cost, cost - value, limitReached);
    }

    /// <summary>The path of stored energy; on a trip with a shortfall, energy from elsewhere comes in as late as the lower bound allows.</summary>
    private static double[] StoredKwh(ChargingProblem problem, double[] shares, Shortfalls shortfalls)
    {
        var stored = new double[problem.Count + 1];
        stored[0] = problem.InitialKwh;
        var departure = -1;
        var missing = 0.0;
        for (var i = 0; i < problem.Count; i++)
        {
            while (departure + 1 < problem.Departures.Length && problem.Departures[departure + 1].Boundary == i)
            {
                missing = shortfalls.TripKwh[++departure];
            }

            var after = stored[i] + (problem.NetKw[i] * problem.Hours[i] * shares[i]) - problem.DriveKwh[i];
            if (missing > 0 && problem.Place[i] == Place.Road)
            {
                // At the trip's last interval whatever its shortfall still holds comes in: least total may give more than is due at once.
                var due = problem.LowerKwh[i + 1] - after;
                var last = departure >= 0 && problem.Departures[departure].ReturnBoundary == i + 1;
                var given = last ? missing : Math.Clamp(due, 0, missing);
                missing -= given;
                after += given;
            }

            stored[i + 1] = after;
        }

        return stored;
    }
}
