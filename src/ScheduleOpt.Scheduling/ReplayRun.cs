namespace ScheduleOpt.Scheduling;

/// <summary>A simulation under way, interval by interval: behaviours decide each share from what has happened so far.</summary>
public sealed class ReplayRun
{
    private readonly ChargingProblem problem;
    private readonly double[] stored;
    private readonly double[] wall;
    private readonly double[] on;
    private readonly double[] tripShort;
    private readonly double[] targetShort;
    private int next;
    private int departed = -1;
    private double floor;

    private readonly double[]? awayKwh;

    /// <summary>Starts at the first interval.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="awayKwh">For each departure, the energy that is planned to come from away charging; what a trip needs beyond that comes
    /// in as well. None: only what is needed. [kWh]</param>
    public ReplayRun(ChargingProblem problem, double[]? awayKwh = null)
    {
        ArgumentNullException.ThrowIfNull(problem);
        this.problem = problem;
        this.awayKwh = awayKwh;
        stored = new double[problem.Count + 1];
        wall = new double[problem.Count];
        on = new double[problem.Count];
        tripShort = new double[problem.Departures.Length];
        targetShort = new double[problem.Departures.Length];
        stored[0] = problem.InitialKwh;
        Depart();
    }

    /// <summary>Index of the interval that comes next; the number of intervals when all are done.</summary>
    public int Next => next;

    /// <summary>Stored energy now. [kWh]</summary>
    public double StoredKwh => stored[next];

    /// <summary>The outcome; complete once every interval is done.</summary>
    public ReplayResult Result => new(stored, wall, on, tripShort, targetShort);

    /// <summary>Simulates the next interval.</summary>
    /// <param name="share">Share of it spent charging, in [0, 1].</param>
    /// <param name="wallKw">Charging power; none: full power. [kW, wall]</param>
    public void Step(double share, double? wallKw = null)
    {
        var i = next;
        if (problem.Place[i] == Place.Road)
        {
            var after = stored[i] - problem.DriveKwh[i];
            var missing = Math.Max(0, floor - after);
            if (departed >= 0)
            {
                if (awayKwh is not null && problem.Departures[departed].ReturnBoundary == i + 1)
                {
                    missing = Math.Max(missing, awayKwh[departed] - tripShort[departed]);
                }

                tripShort[departed] += missing;
            }

            stored[i + 1] = after + missing;
        }
        else
        {
            (stored[i + 1], wall[i], on[i]) = Replay.Charge(problem, i, stored[i], share * problem.Hours[i], wallKw);
            wall[i] += problem.WarmUpKwh(i);
        }

        next++;
        Depart();
    }

    /// <summary>Settles the departures that fall on the boundary just reached.</summary>
    private void Depart()
    {
        while (departed + 1 < problem.Departures.Length && problem.Departures[departed + 1].Boundary == next)
        {
            departed++;
            targetShort[departed] = Math.Max(0, problem.Departures[departed].RequiredKwh - stored[next]);

            // A trip that begins below the lower bound can't give more than the car has.
            floor = Math.Min(problem.LowerKwh[next], stored[next]);
        }
    }
}
