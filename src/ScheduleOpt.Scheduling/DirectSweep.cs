namespace ScheduleOpt.Scheduling;

/// <summary>The exact least-cost solution where nothing is priced on power: one sweep forward, near linear.</summary>
/// <remarks>
/// The exchange argument of fill-up problems. Going forward, keep the energy that could have been stored so far as options, by unit cost.
/// When a requirement falls due (drive, lower bound, wish at departure) commit the cheapest; where the upper bound is exceeded drop the
/// dearest; at the end commit what costs less than stored energy is worth there. Equal to the LP's optimum, as tests show. Of options that
/// cost the same the earliest or the latest is taken, as asked.
/// </remarks>
internal static class DirectSweep
{
    public static double[] Solve(Stages stages, Shortfalls shortfalls, EqualCost equalCost)
    {
        var problem = stages.Problem;
        var columns = stages.Columns;
        var stored = new double[columns.Length];
        var options = new Options(stages, stored, equalCost);
        var departure = 0;
        Depart(problem, 0, shortfalls, options, ref departure);
        foreach (var stage in stages.All)
        {
            for (var c = stage.FirstColumn; c < stage.EndColumn; c++)
            {
                options.Offer(c);
            }

            if (stage.DriveKwh > 0)
            {
                options.Drive(stage.DriveKwh, problem.LowerKwh[stage.EndBoundary]);
            }
            else
            {
                options.Require(problem.LowerKwh[stage.EndBoundary]);
            }

            options.Limit(problem.UpperKwh[stage.EndBoundary]);
            Depart(problem, stage.EndBoundary, shortfalls, options, ref departure);
        }

        options.Require((problem.FinalKwh ?? 0) - shortfalls.FinalKwh);
        options.CommitWorth(problem.EndValuePerKwh, problem.OrdinaryKwh);
        return stored;
    }

    private static void Depart(ChargingProblem problem, int boundary, Shortfalls shortfalls, Options options, ref int departure)
    {
        for (; departure < problem.Departures.Length && problem.Departures[departure].Boundary == boundary; departure++)
        {
            options.Require(problem.Departures[departure].RequiredKwh - shortfalls.TargetKwh[departure]);
        }
    }

    /// <summary>Energy committed, and energy that could still be.</summary>
    private sealed class Options(Stages stages, double[] stored, EqualCost equalCost)
    {
        private readonly IntervalHeap open = new();
        private readonly double[] left = new double[stored.Length];
        private double committed = stages.Problem.InitialKwh;
        private double optional;

        public void Offer(int column)
        {
            left[column] = stages.Columns[column].CapacityKwh;
            optional += left[column];
            open.Add(stages.Columns[column].UnitCost, IdOf(column));
        }

        public void Drive(double driveKwh, double lowerKwh)
        {
            committed -= driveKwh;
            Require(lowerKwh);

            // What no option can give is the trip's shortfall.
            committed = Math.Max(committed, lowerKwh);
        }

        public void Require(double kwh)
        {
            while (committed < kwh && open.Count > 0)
            {
                Commit(kwh - committed);
            }
        }

        public void Limit(double upperKwh)
        {
            while (open.Count > 0 && committed + optional > upperKwh)
            {
                var column = ColumnOf(open.Dearest.Id);
                var excess = committed + optional - upperKwh;
                if (left[column] > excess)
                {
                    left[column] -= excess;
                    optional -= excess;
                    return;
                }

                optional = open.Count == 1 ? 0 : optional - left[column];
                open.RemoveDearest();
            }
        }

        public void CommitWorth(double valuePerKwh, double worthUpToKwh)
        {
            while (open.Count > 0)
            {
                var cost = open.Cheapest.Key;
                if (cost < 0)
                {
                    Commit(double.PositiveInfinity);
                }
                else if (cost < valuePerKwh && committed < worthUpToKwh)
                {
                    Commit(worthUpToKwh - committed);
                }
                else
                {
                    return;
                }
            }
        }

        // The heap takes the larger of two ids for cheaper.
        private int IdOf(int column) => equalCost == EqualCost.ChargeLate ? column : -column;

        private int ColumnOf(int id) => equalCost == EqualCost.ChargeLate ? id : -id;

        private void Commit(double atMost)
        {
            var column = ColumnOf(open.Cheapest.Id);
            var taken = Math.Min(atMost, left[column]);
            stored[column] += taken;
            committed += taken;
            left[column] -= taken;
            optional -= taken;
            if (left[column] <= 0)
            {
                open.RemoveCheapest();
                if (open.Count == 0)
                {
                    optional = 0;
                }
            }
        }
    }
}
