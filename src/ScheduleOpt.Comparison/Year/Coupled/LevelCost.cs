namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>What power above that which is free costs by one charge, up to the peak without a level.</summary>
internal sealed class LevelCost
{
    private readonly double[] edges;
    private readonly double[] prices;

    /// <param name="charge">The charge.</param>
    /// <param name="highestKw">The peak without a level. [kW]</param>
    /// <param name="factor">What it counts, as its billing period's minimum bill lets it, in [0, 1].</param>
    public LevelCost(PeakCharge charge, double highestKw, double factor)
    {
        MostKw = Math.Max(0, highestKw - charge.FreeKw);
        edges = [.. charge.EdgesKw.Select(e => e - charge.FreeKw).Where(e => e > 0 && e < MostKw), MostKw];
        prices = [.. edges.Select((e, b) => factor * charge.PriceAt(charge.FreeKw + ((e + (b == 0 ? 0 : edges[b - 1])) / 2)))];
    }

    /// <summary>The most that a level can be. [kW]</summary>
    public double MostKw { get; }

    /// <summary>The price of the first kW. [currency/kW]</summary>
    public double FirstPrice => prices[0];

    /// <summary>The cost of a level. [currency]</summary>
    public double Of(double kw)
    {
        var (cost, from) = (0.0, 0.0);
        for (var b = 0; b < edges.Length && kw > from; b++)
        {
            cost += prices[b] * (Math.Min(kw, edges[b]) - from);
            from = edges[b];
        }

        return cost;
    }

    /// <summary>The level of least cost less its worth, near a centre. [kW]</summary>
    /// <param name="worth">What a kW is worth. [currency/kW]</param>
    /// <param name="centre">The centre. [kW]</param>
    /// <param name="reach">How far the level moves for a price that is off by one. [kW² / currency]</param>
    public double Least(double worth, double centre, double reach)
    {
        var (at, least, from) = (0.0, double.PositiveInfinity, 0.0);
        for (var b = 0; b < edges.Length; b++)
        {
            var kw = Math.Clamp(centre + (reach * (worth - prices[b])), from, edges[b]);
            var cost = Of(kw) - (worth * kw) + ((kw - centre) * (kw - centre) / (2 * reach));
            (at, least) = cost < least ? (kw, cost) : (at, least);
            from = edges[b];
        }

        return at;
    }
}
