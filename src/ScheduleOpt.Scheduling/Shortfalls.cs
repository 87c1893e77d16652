namespace ScheduleOpt.Scheduling;

/// <summary>Step 1: the least that must go unmet, by departure. [kWh]</summary>
/// <param name="TripKwh">Energy each departure's trip needs and the battery can't give.</param>
/// <param name="TargetKwh">By how much each departure's wish is missed.</param>
/// <param name="FinalKwh">By how much the energy asked for at the end is missed.</param>
internal sealed record Shortfalls(double[] TripKwh, double[] TargetKwh, double FinalKwh)
{
    /// <summary>Below this a sum of shortfalls counts as none. [kWh]</summary>
    public const double Negligible = 1e-6;

    public bool Any => TripKwh.Sum() > Negligible || TargetKwh.Sum() > Negligible;

    /// <summary>The shortfalls in time order: one sweep that charges as early and as much as the limits let it.</summary>
    /// <remarks>That path has at every boundary the most energy any path can have, so that each departure in turn, given those before it,
    /// has its least trip shortfall, and given all trip shortfalls its least target shortfall. Proved against the LP in tests.</remarks>
    public static Shortfalls InTimeOrder(Stages stages)
    {
        var problem = stages.Problem;
        var columns = stages.Columns;
        var trip = new double[problem.Departures.Length];
        var target = new double[problem.Departures.Length];
        var stored = problem.InitialKwh;
        var departure = 0;
        Depart(problem, 0, stored, target, ref departure);
        foreach (var stage in stages.All)
        {
            for (var c = stage.FirstColumn; c < stage.EndColumn; c++)
            {
                stored += columns[c].CapacityKwh;
            }

            stored -= stage.DriveKwh;
            var missing = problem.LowerKwh[stage.EndBoundary] - stored;
            if (missing > 0)
            {
                stored += missing;
                if (stage.DriveKwh > 0 && stage.Trip >= 0)
                {
                    trip[stage.Trip] += missing;
                }
            }

            stored = Math.Min(stored, problem.UpperKwh[stage.EndBoundary]);
            Depart(problem, stage.EndBoundary, stored, target, ref departure);
        }

        return new Shortfalls(trip, target, Math.Max(0, (problem.FinalKwh ?? 0) - stored));
    }

    private static void Depart(ChargingProblem problem, int boundary, double stored, double[] target, ref int departure)
    {
        for (; departure < problem.Departures.Length && problem.Departures[departure].Boundary == boundary; departure++)
        {
            target[departure] = Math.Max(0, problem.Departures[departure].RequiredKwh - stored);
        }
    }
}
