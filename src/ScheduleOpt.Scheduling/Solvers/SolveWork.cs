namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>What the programmes of one household have cost so far: counted from their size and the solvers' steps, so that equal input is stopped at the same place, and by the solvers' clocks as a guard.</summary>
/// <remarks>A unit is about a millisecond of one core, building the programme included (fitted to households of all kinds, 28 November 2026; integers to searches of up to 6 s over whole nights: 8 of 10 of these within a factor of 2.5).</remarks>
/// <param name="before">Units of searches before this one for the same household.</param>
internal sealed class SolveWork(double before = 0)
{
    private const int FewestNodes = 20;

    // Large programmes take long at the root, and what their nodes find is little beside it; with many rows a step takes the longer the more there are.
    private const int NodesOfLarge = 12;
    private const int ManyRows = 4000;

    private double beforeTrials;

    /// <summary>Units so far.</summary>
    public double Units { get; private set; }

    /// <summary>Units so far, those before included.</summary>
    public double Altogether => before + Units;

    /// <summary>Units of it since trials began.</summary>
    public double UnitsOfTrials => Units - beforeTrials;

    /// <summary>Time so far by the solvers' clocks. [ms]</summary>
    public long Milliseconds { get; private set; }

    /// <summary>Trials begin: what the relaxation took is not theirs.</summary>
    public void BeginTrials() => beforeTrials = Units;

    /// <summary>Counts a linear programme.</summary>
    /// <param name="rows">Its rows.</param>
    /// <param name="iterations">Steps of the simplex method.</param>
    /// <param name="milliseconds">Time that it took.</param>
    public void AddLinear(int rows, long iterations, long milliseconds)
    {
        Units += 0.65 + (0.003 * rows) + (1e-5 * rows * iterations);
        Milliseconds += milliseconds;
    }

    /// <summary>Counts a programme with integers.</summary>
    /// <param name="rows">Its rows.</param>
    /// <param name="iterations">Steps of the simplex method.</param>
    /// <param name="nodes">Nodes of the search.</param>
    /// <param name="milliseconds">Time that it took.</param>
    public void AddIntegers(int rows, long iterations, long nodes, long milliseconds)
    {
        Units += 2.5 + ((0.04 + ManyRowsMore(rows)) * iterations) + (0.0006 * rows * nodes) + (0.005 * rows);
        Milliseconds += milliseconds;
    }

    /// <summary>The nodes that some units pay for, when the root takes two or three steps for each of its rows, and each node some; never fewer than most easy searches need.</summary>
    public static int NodesFor(double units, int rows, bool isLarge) => isLarge ? NodesOfLarge : (int)Math.Max(FewestNodes, (units - Root(rows)) / Node(rows));

    /// <summary>The units of a search with the fewest nodes.</summary>
    public static double UnitsFor(int rows) => Root(rows) + ((rows > ManyRows ? NodesOfLarge : FewestNodes) * Node(rows));

    private static double Root(int rows) => (0.1 + ManyRowsMore(rows)) * rows;

    private static double ManyRowsMore(int rows) => 4e-5 * Math.Max(0, rows - ManyRows);

    private static double Node(int rows) => 0.35 + (0.0009 * rows);
}
