namespace ScheduleOpt.Scheduling.Households;

/// <summary>Limits of the stored energy that cars can keep together, where each alone could keep more.</summary>
/// <remarks>
/// Lower bounds and finish margins are worked out for a car alone. Where cars share a circuit or an import limit, a bound that they can't all keep would leave the
/// problem without a solution. So one path is run in which they can: <see cref="JointPath"/>. A lower bound falls to what that path gives; a margin is given up
/// where the path misses it, or where a departure after it is short. Upper bounds stay as they are. Where every car begins above its minimum and no
/// margin is asked, nothing changes.
/// </remarks>
internal static class JointLimits
{
    private const double SameKwh = 1e-9;

    /// <summary>The problem with limits that can be kept.</summary>
    /// <param name="problem">The problem with each car's own limits.</param>
    /// <param name="rebuild">Each car's problem again, with the margins that each of its departures may keep.</param>
    public static HouseholdProblem Apply(HouseholdProblem problem, Func<bool[][], IReadOnlyList<ChargingProblem>> rebuild)
    {
        if (problem.Circuits.Count == 0 && problem.ImportLimitKw is null)
        {
            return problem;
        }

        var keep = problem.Cars.Select(c => c.Problem.Departures.Select(d => d.MarginKept).ToArray()).ToArray();
        var path = JointPath.Of(problem);
        while (GiveUp(problem, path, keep))
        {
            var again = rebuild(keep);
            problem = problem with { Cars = [.. problem.Cars.Select((c, k) => c with { Problem = again[k] })] };
            path = JointPath.Of(problem);
        }

        for (var c = 0; c < problem.Cars.Count; c++)
        {
            Lower(problem.Cars[c].Problem, path.GainKwh[c]);
        }

        return problem;
    }

    /// <summary>Marks the margins that can't be kept; whether there was one.</summary>
    private static bool GiveUp(HouseholdProblem problem, JointPath path, bool[][] keep)
    {
        var shortUntil = -1;
        for (var c = 0; c < problem.Cars.Count; c++)
        {
            foreach (var departure in problem.Cars[c].Problem.Departures)
            {
                if (path.StoredKwh[c][departure.Boundary] < departure.RequiredKwh - SameKwh)
                {
                    shortUntil = Math.Max(shortUntil, departure.Boundary);
                }
            }
        }

        var any = false;
        for (var c = 0; c < problem.Cars.Count; c++)
        {
            var departures = problem.Cars[c].Problem.Departures;
            for (var k = 0; k < departures.Length; k++)
            {
                var due = departures[k].DueBoundary;
                if (due < departures[k].Boundary && (due < shortUntil || path.StoredKwh[c][due] < departures[k].RequiredKwh - SameKwh))
                {
                    keep[c][k] = false;
                    any = true;
                }
            }
        }

        return any;
    }

    private static void Lower(ChargingProblem car, double[] gainKwh)
    {
        var margin = new bool[car.LowerKwh.Length];
        foreach (var departure in car.Departures)
        {
            for (var b = departure.DueBoundary; b < departure.Boundary; b++)
            {
                margin[b] = true;
            }
        }

        var reached = Math.Min(car.MinimumKwh, car.InitialKwh);
        for (var i = 0; i < car.Count; i++)
        {
            reached = car.Place[i] == Place.Home ? Math.Min(car.MinimumKwh, reached + gainKwh[i]) : reached;
            if (!margin[i + 1])
            {
                car.LowerKwh[i + 1] = Math.Min(car.LowerKwh[i + 1], reached);
            }
        }
    }
}
