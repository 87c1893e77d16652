using System.Runtime.InteropServices;

namespace ScheduleOpt.Scheduling;

/// <summary>A charging problem reduced to what can make a difference.</summary>
/// <remarks>
/// Stored energy never falls while the car stands and never rises on the road (but for a shortfall). So between two boundaries where a
/// bound changes only the end of the run can bind: such a run is one stage with one balance row. Within a stage, intervals whose stored
/// kWh costs the same are one column. Neighbours are put in one stage only if place and trip are equal, the lower bound is
/// equal, the upper bound does not rise, and no departure lies between; price, power, rate and temperature act through the unit cost alone.
/// </remarks>
internal sealed class Stages
{
    private readonly int[] next;
    private readonly List<Column> columns;

    private Stages(ChargingProblem problem, List<Stage> all, List<Column> columns, int[] next)
    {
        Problem = problem;
        All = all;
        this.columns = columns;
        this.next = next;
    }

    public ChargingProblem Problem { get; }

    public List<Stage> All { get; }

    public ReadOnlySpan<Column> Columns => CollectionsMarshal.AsSpan(columns);

    public static Stages Of(ChargingProblem problem, Reduction reduction)
    {
        var n = problem.Count;
        var all = new List<Stage>(reduction == Reduction.Merged ? Math.Min(n, 1024) : n);
        var columns = new List<Column>(reduction == Reduction.Merged ? Math.Min(n, 4096) : n);
        var next = new int[n];
        var (place, lower, upper) = (problem.Place, problem.LowerKwh, problem.UpperKwh);
        var nextDeparture = 0;
        var trip = -1;
        while (nextDeparture < problem.Departures.Length && problem.Departures[nextDeparture].Boundary == 0)
        {
            trip = nextDeparture++;
        }

        var first = 0;
        while (first < n)
        {
            var kind = place[first];
            var firstColumn = columns.Count;
            var leaves = nextDeparture < problem.Departures.Length ? problem.Departures[nextDeparture].Boundary : -1;
            var drive = 0.0;
            var i = first;
            while (true)
            {
                if (kind == Place.Road)
                {
                    drive += problem.DriveKwh[i];
                }
                else
                {
                    AddToColumn(problem, i, columns, firstColumn, next, reduction);
                }

                i++;
                if (i == n
                    || reduction == Reduction.Unmerged
                    || place[i] != kind
                    || leaves == i
                    || (kind != Place.Road && (lower[i] != lower[i - 1] || upper[i] < upper[i + 1])))
                {
                    break;
                }
            }

            all.Add(new Stage(first, i, firstColumn, columns.Count, drive, trip));
            while (nextDeparture < problem.Departures.Length && problem.Departures[nextDeparture].Boundary == i)
            {
                trip = nextDeparture++;
            }

            first = i;
        }

        return new Stages(problem, all, columns, next);
    }

    /// <summary>The intervals' shares behind the energy that each column stores.</summary>
    /// <param name="storedKwh">For each column. [kWh]</param>
    public double[] Expand(ReadOnlySpan<double> storedKwh)
    {
        var shares = new double[Problem.Count];
        for (var c = 0; c < storedKwh.Length; c++)
        {
            var left = storedKwh[c];
            for (var i = columns[c].First; left > 0 && i >= 0; i = next[i])
            {
                var capacity = Problem.NetKw[i] * Problem.Hours[i];
                var used = Math.Min(left, capacity);
                shares[i] = used / capacity;
                left -= used;
            }
        }

        return shares;
    }

    private static void AddToColumn(
        ChargingProblem problem, int interval, List<Column> columns, int firstColumn, int[] next, Reduction reduction)
    {
        next[interval] = -1;
        var rate = problem.NetKw[interval];
        if (rate <= 0)
        {
            return;
        }

        var price = problem.Price[interval];
        var capacity = rate * problem.Hours[interval];
        if (reduction == Reduction.Merged
            && columns.Count > firstColumn
            && columns[^1].Last == interval - 1
            && price == problem.Price[interval - 1]
            && rate == problem.NetKw[interval - 1]
            && problem.WallKw[interval] == problem.WallKw[interval - 1])
        {
            // The neighbour's column, as a rule: no need to work out the unit cost.
            Join(ref CollectionsMarshal.AsSpan(columns)[^1], interval, capacity, next);
            return;
        }

        // Below a price of zero energy is counted as stored, not as taken, so that none is burned to earn it.
        var unitCost = price >= 0 ? price * problem.WallKw[interval] / rate : price / problem.Constants.ConversionEfficiency;
        if (reduction == Reduction.Merged)
        {
            var known = CollectionsMarshal.AsSpan(columns);
            for (var c = known.Length - 1; c >= firstColumn; c--)
            {
                ref var column = ref known[c];
                if (column.UnitCost == unitCost)
                {
                    Join(ref column, interval, capacity, next);
                    return;
                }
            }
        }

        columns.Add(new Column { UnitCost = unitCost, CapacityKwh = capacity, First = interval, Last = interval });
    }

    private static void Join(ref Column column, int interval, double capacityKwh, int[] next)
    {
        column.CapacityKwh += capacityKwh;
        next[column.Last] = interval;
        column.Last = interval;
    }

    /// <summary>Intervals of one stage whose stored kWh costs the same.</summary>
    internal record struct Column
    {
        /// <summary>What one stored kWh costs. [currency/kWh]</summary>
        public double UnitCost;

        /// <summary>Energy that can be stored. [kWh]</summary>
        public double CapacityKwh;

        /// <summary>First interval; the others follow in a linked list.</summary>
        public int First;

        /// <summary>Last interval.</summary>
        public int Last;
    }
}
