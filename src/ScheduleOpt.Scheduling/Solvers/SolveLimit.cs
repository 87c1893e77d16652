namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>When integers are given up: counted in nodes of the search, so that equal input gives equal answers.</summary>
/// <param name="Nodes">The most nodes.</param>
/// <param name="RelativeGap">The search ends when objective and bound differ by no more than this share.</param>
/// <param name="AbsoluteGap">Or by no more than this. [currency]</param>
/// <param name="GuardMilliseconds">A guard by the clock for all programmes of a household together, far above what they take however large the household; an answer that it cut short says so.</param>
internal sealed record SolveLimit(int Nodes, double RelativeGap, double AbsoluteGap, int GuardMilliseconds)
{
    // Units of work before integers: most are kept for them, for they are the surer way where rounding does not come near at once.
    private const double UnitsBeforeIntegers = 15;
    private const double UnitsForShortfalls = 300;

    // Easy searches need fewer.
    private const int FirstNodes = 20;
    private const int LaterNodes = 50;

    // What integers may take of the guard: what they find must still be made a schedule.
    private const double IntegersShare = 0.8;

    // A night in steps of 5 min takes no more than a second with these (28 November 2026). Small searches end by themselves more often than large ones, and a horizon of many nights has more to decide.
    private const double UnitsOfNight = 340;
    private const double UnitsOfSmall = 460;
    private const double UnitsOfLong = 480;

    public static SolveLimit Default { get; } = new(5000, 8e-4, 8e-4, 60_000);

    /// <summary>The same for a household.</summary>
    /// <param name="intervals">Intervals of all its cars.</param>
    /// <param name="before">Units that searches before this one have taken for it.</param>
    public SolveLimit For(int intervals, double before)
    {
        const int small = 100, night = 200, many = 600;
        var units = intervals > many ? UnitsOfLong : UnitsOfNight + ((UnitsOfSmall - UnitsOfNight) * Math.Clamp((double)(night - intervals) / (night - small), 0, 1));
        return this with { Work = new(before), MostUnits = units };
    }

    /// <summary>For stays beyond the second departure, which are planned anew before they matter.</summary>
    public SolveLimit Later => this with { Nodes = Math.Min(Nodes, LaterNodes), RelativeGap = 5 * RelativeGap };

    /// <summary>For a first search, after which there is another way to go on.</summary>
    public SolveLimit First => this with { Nodes = Math.Min(Nodes, FirstNodes) };

    /// <summary>For the only search by integers that there may be.</summary>
    public SolveLimit Longer => this with { MostAltogether = 1.2 * MostAltogether };

    /// <summary>For linear programmes, and binaries of non-convex terms alone: there are few, and the bound should be tight.</summary>
    public SolveLimit Linear => this with { Nodes = 2000, RelativeGap = 1e-6, AbsoluteGap = 1e-6 };

    /// <summary>For the one linear programme without which nothing would be proven of the answer: it has a guard of its own.</summary>
    public SolveLimit ToProve => Linear with { Work = null, Nodes = LaterNodes, GuardMilliseconds = Default.GuardMilliseconds };

    /// <summary>Units that no search by integers may take the household beyond, by what is known of its size beforehand: one that would is not begun, for a large one can't be ended in its root.</summary>
    public double MostAltogether { get; init; } = 5500;

    /// <summary>Units of work for a household: what is begun when they are spent is ended, and nothing optional is begun.</summary>
    public double MostUnits { get; init; } = UnitsOfNight;

    /// <summary>What has been done for this household; none: nothing is counted, and each programme has the guard to itself.</summary>
    public SolveWork? Work { get; init; }

    /// <summary>Whether there is work left for trials before the search by integers.</summary>
    public bool MayTry => Work is null || Work.UnitsOfTrials < UnitsBeforeIntegers;

    /// <summary>Whether there is work left at all.</summary>
    public bool MayGoOn => Work is null || (Work.Units < MostUnits && IntegersLeftMilliseconds > 1);

    /// <summary>Whether the least shortfalls under running rules may be looked for departure by departure for longer.</summary>
    /// <param name="begun">Units when that began.</param>
    public bool MaySpare(double begun) => Work is null || (Work.Units - begun < UnitsForShortfalls && IntegersLeftMilliseconds > 1);

    /// <summary>What of the guard is left. [ms]</summary>
    public long LeftMilliseconds => Left(GuardMilliseconds);

    /// <summary>What of it integers may take. [ms]</summary>
    public long IntegersLeftMilliseconds => Left(IntegersShare * GuardMilliseconds);

    /// <summary>The nodes for a programme of so many rows.</summary>
    public int NodesFor(int rows, bool isLarge) => Work is null ? Nodes : Math.Min(Nodes, SolveWork.NodesFor(MostUnits - Work.Units, rows, isLarge));

    // Measured on 350 households (28 November 2026): presolving and the larger searches inside the search cost more than they bring on problems of this size, but for one search near the
    // relaxation's solution at the root (rens, rins), which finds all but the best schedule most often; a few trials of branching do as well as many.
    private const string LightSearch = """
        presolving/maxrounds = 0
        heuristics/rens/freq = 0
        heuristics/rens/nodesofs = 50
        heuristics/rens/maxnodes = 100
        heuristics/rins/freq = 0
        branching/relpscost/initcand = 10
        branching/relpscost/maxreliable = 1
        branching/relpscost/sbiterquot = 0.1
        branching/relpscost/sbiterofs = 300
        heuristics/alns/freq = -1
        heuristics/feaspump/freq = -1
        heuristics/crossover/freq = -1
        heuristics/clique/freq = -1
        heuristics/locks/freq = -1
        heuristics/vbounds/freq = -1
        heuristics/lpface/freq = -1
        heuristics/mpec/freq = -1
        heuristics/undercover/freq = -1
        heuristics/gins/freq = -1
        separating/maxroundsroot = 5
        separating/maxrounds = 1
        """;

    // For large programmes (28 November 2026): beginning anew at the root, long dives and many trials of branching take most of the time there and bring next to nothing.
    private const string LargeSearch = """
        presolving/maxrestarts = 0
        heuristics/objpscostdiving/freq = -1
        heuristics/rootsoldiving/freq = -1
        branching/relpscost/initcand = 4
        branching/relpscost/sbiterofs = 200
        """;

    /// <summary>Whether a search of so many rows may be begun.</summary>
    public bool MayBegin(int rows) => Work is null || Work.Altogether + SolveWork.UnitsFor(rows) <= MostAltogether;

    /// <summary>Whether what is left of the work pays for a search of so many rows with the fewest nodes.</summary>
    public bool CanPayFor(int rows) => Work is null || SolveWork.UnitsFor(rows) <= MostUnits - Work.Units;

    /// <summary>Parameters in SCIP's own format.</summary>
    /// <param name="rows">Rows of the programme.</param>
    /// <param name="isLarge">Whether it takes long at its root, whatever its nodes.</param>
    public string ScipParameters(int rows, bool isLarge) => FormattableString.Invariant(
        $"limits/nodes = {NodesFor(rows, isLarge)}\nlimits/absgap = {AbsoluteGap}\nlimits/gap = {RelativeGap}\nrandomization/randomseedshift = 1\n{LightSearch}\n{(Work is not null && isLarge ? LargeSearch : string.Empty)}\n");

    private long Left(double guard) => (long)Math.Max(1, guard - (Work?.Milliseconds ?? 0));
}
