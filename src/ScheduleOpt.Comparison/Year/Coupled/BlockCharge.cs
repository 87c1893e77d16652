using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>Prices by block of use in one billing period, against the block that the prices per kWh contain.</summary>
/// <remarks>Where prices fall from block to block, or all the use is at the price of the block that it ends in, cost is not convex. Then slopes are those of its
/// lower hull: a search by them is no more than that, but a bound made of them holds.</remarks>
internal sealed class BlockCharge
{
    private readonly double[] limits;
    private readonly double[] slopes;
    private readonly double[] hullLimits;
    private readonly double[] hullSlopes;
    private readonly bool isWhole;

    private BlockCharge(int period, MeterSpan[] spans, double usedKwh, double[] limits, double[] slopes, bool isWhole)
    {
        (Period, Spans, UsedKwh, this.limits, this.slopes, this.isWhole) = (period, spans, usedKwh, limits, slopes, isWhole);
        (hullLimits, hullSlopes) = Hull();
    }

    /// <summary>Index of the billing period.</summary>
    public int Period { get; }

    /// <summary>The metering intervals whose use it counts.</summary>
    public MeterSpan[] Spans { get; }

    /// <summary>Use without the car. [kWh]</summary>
    public double UsedKwh { get; }

    /// <summary>The blocks of a term; none where they make no difference.</summary>
    public static BlockCharge? Of(BlockTerm term, int period, MeterSpan[] spans)
    {
        var reached = term.Blocks[term.ReachedBlock].PricePerKwh;
        if (spans.Length == 0 || term.Blocks.All(b => b.PricePerKwh == reached))
        {
            return null;
        }

        var limits = new double[term.Blocks.Count];
        var below = 0.0;
        for (var b = 0; b < limits.Length; b++)
        {
            below = term.Blocks[b].WidthKwh is { } width ? below + (double)width : double.PositiveInfinity;
            limits[b] = below;
        }

        return new BlockCharge(period, spans, (double)term.UsedKwh, limits, [.. term.Blocks.Select(b => (double)(b.PricePerKwh - reached))], term.WholeUse);
    }

    /// <summary>What the next kWh costs more than the prices say. [currency/kWh]</summary>
    public double SlopeAbove(double useKwh) => hullSlopes[Array.FindIndex(hullLimits, l => useKwh < l)];

    /// <summary>What the last kWh cost more than the prices say. [currency/kWh]</summary>
    public double SlopeBelow(double useKwh) => hullSlopes[Array.FindIndex(hullLimits, l => useKwh <= l)];

    /// <summary>What a use costs more than the prices say. [currency]</summary>
    public double Cost(double useKwh)
    {
        if (isWhole)
        {
            return (slopes[Array.FindIndex(limits, l => useKwh <= l)] * useKwh) - (slopes[Array.FindIndex(limits, l => UsedKwh <= l)] * UsedKwh);
        }

        var (cost, from) = (0.0, UsedKwh);
        for (var b = 0; b < limits.Length && from < useKwh; b++)
        {
            var until = Math.Min(limits[b], useKwh);
            if (until > from)
            {
                cost += slopes[b] * (until - from);
                from = until;
            }
        }

        return cost;
    }

    /// <summary>The least, over all uses of the car up to one, of its cost less a price times it; where cost is not convex, of its lower hull. [currency]</summary>
    public double Least(double price, double mostKwh)
    {
        var (least, cost, from) = (0.0, 0.0, UsedKwh);
        for (var b = 0; b < hullLimits.Length; b++)
        {
            var until = Math.Min(hullLimits[b], UsedKwh + mostKwh);
            cost += hullSlopes[b] * Math.Max(0, until - from);
            from = Math.Max(from, until);
            least = Math.Min(least, cost - (price * (from - UsedKwh)));
        }

        return least;
    }

    /// <summary>The lower hull of the cost from the use without the car on.</summary>
    private (double[] Limits, double[] Slopes) Hull()
    {
        var (points, last) = (new List<(double Kwh, double Cost)> { (UsedKwh, 0) }, slopes[^1]);
        for (var b = 0; b + 1 < limits.Length; b++)
        {
            if (limits[b] > UsedKwh)
            {
                // Just above a limit all the use may have got cheaper.
                var above = isWhole ? Cost(limits[b]) + ((slopes[b + 1] - slopes[b]) * limits[b]) : Cost(limits[b]);
                Add((limits[b], Math.Min(Cost(limits[b]), above)));
            }
        }

        while (points.Count > 1 && Slope(points[^2], points[^1]) > last)
        {
            points.RemoveAt(points.Count - 1);
        }

        return ([.. points.Skip(1).Select(p => p.Kwh), double.PositiveInfinity], [.. points.Zip(points.Skip(1), Slope), last]);

        void Add((double Kwh, double Cost) point)
        {
            while (points.Count > 1 && Slope(points[^2], points[^1]) >= Slope(points[^1], point))
            {
                points.RemoveAt(points.Count - 1);
            }

            points.Add(point);
        }

        static double Slope((double Kwh, double Cost) from, (double Kwh, double Cost) until) => (until.Cost - from.Cost) / (until.Kwh - from.Kwh);
    }
}
