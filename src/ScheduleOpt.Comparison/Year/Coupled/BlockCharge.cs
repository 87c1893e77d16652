using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>Prices by block of use in one billing period, against the block that the prices per kWh contain.</summary>
internal sealed class BlockCharge : UseCharge
{
    private readonly double[] limits;
    private readonly double[] slopes;
    private readonly bool isWhole;

    private BlockCharge(int period, MeterSpan[] spans, double usedKwh, double[] limits, double[] slopes, bool isWhole)
        : base(period, spans, usedKwh) =>
        (this.limits, this.slopes, this.isWhole) = (limits, slopes, isWhole);

    /// <inheritdoc/>
    public override bool MayFall => isWhole && slopes.Zip(slopes.Skip(1), (a, b) => b < a).Any(falls => falls);

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

    /// <inheritdoc/>
    public override double SlopeAbove(double useKwh) => slopes[Array.FindIndex(limits, l => useKwh < l)];

    /// <inheritdoc/>
    public override double Cost(double useKwh)
    {
        if (isWhole)
        {
            return (SlopeOfAll(useKwh) * useKwh) - (SlopeOfAll(UsedKwh) * UsedKwh);
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

    /// <inheritdoc/>
    public override IEnumerable<(double Kwh, double Cost)> Corners()
    {
        for (var b = 0; b + 1 < limits.Length; b++)
        {
            if (limits[b] >= UsedKwh)
            {
                // Just above its limit all the use may be at another price.
                var cost = Cost(limits[b]);
                yield return (limits[b], isWhole ? Math.Min(cost, (slopes[b + 1] * limits[b]) - (SlopeOfAll(UsedKwh) * UsedKwh)) : cost);
            }
        }
    }

    private double SlopeOfAll(double useKwh) => slopes[Array.FindIndex(limits, l => useKwh <= l)];
}
