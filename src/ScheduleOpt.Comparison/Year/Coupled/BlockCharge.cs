using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>Prices by block of use in one billing period, against the block that the prices per kWh contain.</summary>
internal sealed class BlockCharge
{
    private readonly double[] limits;
    private readonly double[] slopes;
    private readonly bool isWhole;

    private BlockCharge(int period, MeterSpan[] spans, double usedKwh, double[] limits, double[] slopes, bool isWhole) =>
        (Period, Spans, UsedKwh, this.limits, this.slopes, this.isWhole) = (period, spans, usedKwh, limits, slopes, isWhole);

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

    /// <summary>What the next kWh costs more than the prices say, in its block. [currency/kWh]</summary>
    public double SlopeAbove(double useKwh) => slopes[Array.FindIndex(limits, l => useKwh < l)];

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

    /// <summary>Where what a use costs is on a new line: at limits, and just above them where all the use changes its price. [kWh, currency]</summary>
    /// <param name="mostKwh">The most that the car can add. [kWh]</param>
    public IEnumerable<(double Kwh, double Cost)> Corners(double mostKwh)
    {
        for (var b = 0; b + 1 < limits.Length && limits[b] < UsedKwh + mostKwh; b++)
        {
            if (limits[b] > UsedKwh)
            {
                var above = Cost(limits[b]) + (isWhole ? (slopes[b + 1] - slopes[b]) * limits[b] : 0);
                yield return (limits[b], Math.Min(Cost(limits[b]), above));
            }
        }

        yield return (UsedKwh + mostKwh, Cost(UsedKwh + mostKwh));
    }
}
