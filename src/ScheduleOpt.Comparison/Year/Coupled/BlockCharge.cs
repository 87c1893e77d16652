using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>Prices by block of use in one billing period, against the block that the prices per kWh contain.</summary>
internal sealed class BlockCharge
{
    private readonly double[] limits;
    private readonly double[] slopes;

    private BlockCharge(int period, MeterSpan[] spans, double usedKwh, double[] limits, double[] slopes) =>
        (Period, Spans, UsedKwh, this.limits, this.slopes) = (period, spans, usedKwh, limits, slopes);

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
        if (term.WholeUse || spans.Length == 0 || term.Blocks.All(b => b.PricePerKwh == reached))
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

        return new BlockCharge(period, spans, (double)term.UsedKwh, limits, [.. term.Blocks.Select(b => (double)(b.PricePerKwh - reached))]);
    }

    /// <summary>What the next kWh costs more than the prices say. [currency/kWh]</summary>
    public double SlopeAbove(double useKwh) => slopes[Array.FindIndex(limits, l => useKwh < l)];

    /// <summary>What the last kWh cost more than the prices say. [currency/kWh]</summary>
    public double SlopeBelow(double useKwh) => slopes[Array.FindIndex(limits, l => useKwh <= l)];

    /// <summary>What a use costs more than the prices say. [currency]</summary>
    public double Cost(double useKwh)
    {
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

    /// <summary>The least, over all uses of the car up to one, of its cost less a price times it. [currency]</summary>
    public double Least(double price, double mostKwh)
    {
        var least = Math.Min(0, Cost(UsedKwh + mostKwh) - (price * mostKwh));
        foreach (var limit in limits.Where(l => l > UsedKwh && l < UsedKwh + mostKwh))
        {
            least = Math.Min(least, Cost(limit) - (price * (limit - UsedKwh)));
        }

        return least;
    }
}
