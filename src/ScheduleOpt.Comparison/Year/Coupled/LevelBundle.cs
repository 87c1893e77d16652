namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>Tangents of what energy costs under levels of power, and the levels and weights that follow from them: a proximal bundle.</summary>
/// <remarks>
/// Energy's cost is convex in the levels, and the multipliers of a solved year are its slope. The least of the highest tangent, the charges for power and the
/// distance from a centre is searched in its dual, the weights of the tangents: some of the weight of the worst tangent goes to the best, as much as pays, until
/// they are equal. Multipliers mixed by these weights add up to the prices of a kW more and more closely, and the bound that they give comes close to the cost.
/// Lemaréchal, Nondifferentiable Optimization, in Handbooks in Operations Research and Management Science 1 (1989), 529-572.
/// </remarks>
internal sealed class LevelBundle
{
    private const int MostMoves = 200;

    // Each has a multiplier for every average of the year.
    private const int MostTangents = 24;
    private const int Halvings = 20;
    private const double SameCost = 1e-6;

    private readonly LevelCost[] costs;
    private readonly List<Tangent> tangents = [];
    private readonly List<double> weights = [];

    /// <param name="costs">What each level costs.</param>
    public LevelBundle(LevelCost[] costs) => this.costs = costs;

    /// <summary>Adds a tangent.</summary>
    /// <param name="atFreeKw">Its value where all levels are those that are free. [currency]</param>
    /// <param name="multipliers">What each average of each charge is worth. [currency/kW]</param>
    public void Add(double atFreeKw, double[][] multipliers)
    {
        tangents.Add(new Tangent(atFreeKw, [.. multipliers.Select(m => m.Sum())], multipliers));
        weights.Add(weights.Count == 0 ? 1 : 0);
        var unused = weights.FindIndex(w => w == 0);
        if (tangents.Count > MostTangents && unused < tangents.Count - 1)
        {
            tangents.RemoveAt(unused);
            weights.RemoveAt(unused);
        }
    }

    /// <summary>The levels to be tried next, as power above that which is free. [kW]</summary>
    /// <param name="centre">The best so far. [kW]</param>
    /// <param name="reach">For each charge, how far its level moves from there where multipliers are off its price by one. [kW² / currency]</param>
    public double[] Next(double[] centre, double[] reach)
    {
        var sums = new double[costs.Length];
        for (var j = 0; j < tangents.Count; j++)
        {
            sums = Moved(sums, tangents[j].Sums, null, weights[j]);
        }

        var levels = Levels(sums, centre, reach);
        for (var move = 0; move < MostMoves; move++)
        {
            var (best, worst) = Ends(levels);
            if (tangents[best].At(levels) - tangents[worst].At(levels) <= SameCost)
            {
                break;
            }

            // The whole weight of the worst if that pays to the end, else up to where both are equal.
            var (from, until) = (0.0, weights[worst]);
            levels = Levels(Moved(sums, tangents[best].Sums, tangents[worst].Sums, until), centre, reach);
            if (tangents[best].At(levels) >= tangents[worst].At(levels))
            {
                from = until;
            }

            for (var halving = 0; halving < Halvings && from < until; halving++)
            {
                var share = (from + until) / 2;
                levels = Levels(Moved(sums, tangents[best].Sums, tangents[worst].Sums, share), centre, reach);
                (from, until) = tangents[best].At(levels) >= tangents[worst].At(levels) ? (share, until) : (from, share);
            }

            sums = Moved(sums, tangents[best].Sums, tangents[worst].Sums, from);
            levels = Levels(sums, centre, reach);
            weights[best] += from;
            weights[worst] -= from;
        }

        return levels;
    }

    /// <summary>The highest tangent, and what the levels cost beside it. [currency]</summary>
    public double Cost(double[] levels) => tangents.Max(t => t.At(levels)) + CostOf(levels);

    /// <summary>What levels cost by their charges. [currency]</summary>
    public double CostOf(double[] levels) => costs.Select((c, k) => c.Of(levels[k])).Sum();

    /// <summary>The multipliers of a charge mixed by the weights. [currency/kW]</summary>
    public double[] Mixed(int peak)
    {
        var mixed = new double[tangents[0].Multipliers[peak].Length];
        for (var j = 0; j < tangents.Count; j++)
        {
            for (var w = 0; weights[j] > 0 && w < mixed.Length; w++)
            {
                mixed[w] += weights[j] * tangents[j].Multipliers[peak][w];
            }
        }

        return mixed;
    }

    private (int Best, int Worst) Ends(double[] levels)
    {
        var (best, worst, most, least) = (0, 0, double.NegativeInfinity, double.PositiveInfinity);
        for (var j = 0; j < tangents.Count; j++)
        {
            var at = tangents[j].At(levels);
            (best, most) = at > most ? (j, at) : (best, most);
            (worst, least) = weights[j] > 0 && at < least ? (j, at) : (worst, least);
        }

        return (best, worst);
    }

    private double[] Levels(double[] sums, double[] centre, double[] reach)
    {
        var levels = new double[sums.Length];
        for (var k = 0; k < levels.Length; k++)
        {
            levels[k] = costs[k].Least(sums[k], centre[k], reach[k]);
        }

        return levels;
    }

    private static double[] Moved(double[] sums, double[] to, double[]? from, double share)
    {
        var moved = new double[sums.Length];
        for (var k = 0; k < moved.Length; k++)
        {
            moved[k] = sums[k] + (share * (to[k] - (from?[k] ?? 0)));
        }

        return moved;
    }

    private sealed record Tangent(double AtFreeKw, double[] Sums, double[][] Multipliers)
    {
        public double At(double[] levels)
        {
            var value = AtFreeKw;
            for (var k = 0; k < levels.Length; k++)
            {
                value -= Sums[k] * levels[k];
            }

            return value;
        }
    }
}
