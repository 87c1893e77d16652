namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>When integers are given up: counted in nodes of the search, so that equal input gives equal answers.</summary>
/// <param name="Nodes">The most nodes.</param>
/// <param name="RelativeGap">The search ends when objective and bound differ by no more than this share.</param>
/// <param name="AbsoluteGap">Or by no more than this. [currency]</param>
/// <param name="GuardMilliseconds">A guard by the clock, far above what nodes take; an answer that it cut short says so.</param>
internal sealed record SolveLimit(int Nodes, double RelativeGap, double AbsoluteGap, int GuardMilliseconds)
{
    public static SolveLimit Default { get; } = new(150, 8e-4, 8e-4, 2000);

    /// <summary>For stays beyond the second departure, which are planned anew before they matter.</summary>
    public SolveLimit Later => this with { Nodes = (Nodes / 10) + 1, RelativeGap = 5 * RelativeGap };

    /// <summary>For linear programmes, and binaries of non-convex terms alone: there are few, and the bound should be tight.</summary>
    public SolveLimit Linear => new(2000, 1e-6, 1e-6, GuardMilliseconds);

    // Measured: SCIP's defaults spend nine tenths of their time on large searches inside the search and on cuts, which problems of this size don't repay.
    private const string LightSearch = """
        heuristics/alns/freq = -1
        heuristics/rens/freq = -1
        heuristics/rins/freq = -1
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

    /// <summary>Parameters in SCIP's own format.</summary>
    public string ScipParameters => FormattableString.Invariant(
        $"limits/nodes = {Nodes}\nlimits/absgap = {AbsoluteGap}\nlimits/gap = {RelativeGap}\nrandomization/randomseedshift = 1\n{LightSearch}\n");
}
