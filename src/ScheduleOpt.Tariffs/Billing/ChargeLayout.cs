using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>An energy charge with the cells of use that it covers, and what a billing period's use costs under it.</summary>
internal sealed class ChargeLayout
{
    private readonly PlanLayout layout;
    private readonly bool[] dayCells;
    private readonly bool[] covered;

    public ChargeLayout(PlanLayout layout, EnergyCharge charge, BillPart part)
    {
        (this.layout, Charge, Part) = (layout, charge, part);
        Cells = [.. Enumerable.Range(0, layout.Cells).Where(cell => layout.Covers(charge, cell))];
        covered = new bool[layout.Cells];
        dayCells = new bool[layout.Cells / layout.Periods];
        foreach (var cell in Cells)
        {
            covered[cell] = true;
            dayCells[layout.DayCellOf(cell)] = true;
        }
    }

    public EnergyCharge Charge { get; }

    public BillPart Part { get; }

    /// <summary>The cells it covers, in order.</summary>
    public int[] Cells { get; }

    public bool Covers(int cell) => covered[cell];

    /// <summary>All the use that it covers. [kWh]</summary>
    public decimal Use(PeriodUse use)
    {
        long sum = 0;
        foreach (var cell in Cells)
        {
            sum += use.MicroKwh[cell];
        }

        return sum / (decimal)MeteredSeries.UnitsPerKilowattHour;
    }

    /// <summary>Upper limits of the blocks in a billing period; the largest number for the last. [kWh]</summary>
    public decimal[] Limits(PeriodUse use)
    {
        decimal covered = 0;
        for (var i = 0; i < dayCells.Length; i++)
        {
            covered += dayCells[i] ? use.Days[i] : 0;
        }

        return [.. Charge.Blocks.Select(block => Limit(block, covered, use))];
    }

    /// <summary>The block in which the next kWh after some use lies.</summary>
    public static int BlockAfter(decimal kwh, decimal[] limits)
    {
        var block = 0;
        while (kwh >= limits[block])
        {
            block++;
        }

        return block;
    }

    private decimal Limit(Block block, decimal coveredDays, PeriodUse use)
    {
        if (block.UpToKwh is not { } limit)
        {
            return decimal.MaxValue;
        }

        // Whole periods first, so that a charge over all days keeps its limit to the last digit.
        var scaled = Charge.LimitPer == ChargeUnit.Day ? limit * coveredDays
            : coveredDays == use.TotalDays ? limit * use.Months
            : limit * use.Months * coveredDays / use.TotalDays;
        // To the millionth of a kWh like the use, so that 30 kWh x 31/30 are 31 kWh.
        return decimal.Round(scaled, Charge.LimitInWholeKwh ? 0 : 6, MidpointRounding.AwayFromZero);
    }

    /// <summary>The lines of a billing period's use; none for a block without use.</summary>
    public IEnumerable<BillLine> Lines(PeriodUse use, Rounding rounding)
    {
        var total = Use(use);
        if (total == 0)
        {
            yield break;
        }

        var limits = Limits(use);
        decimal below = 0;
        for (var block = 0; below < total; block++)
        {
            var limit = Math.Min(limits[block], total);
            if (limit > below)
            {
                foreach (var line in BlockLines(block, limit - below, total, use, rounding))
                {
                    yield return line;
                }

                below = limit;
            }
        }
    }

    private IEnumerable<BillLine> BlockLines(int block, decimal width, decimal total, PeriodUse use, Rounding rounding)
    {
        var name = Charge.HasBlocks ? $"{Charge.Name}, block {block + 1}" : Charge.Name;
        if (Charge.Blocks[block].PriceByPeriod is null)
        {
            return [Line(name, width, Charge.Blocks[block].PricePerKwh, rounding)];
        }

        return Cells
            .GroupBy(layout.PeriodOf, (period, cells) => (period, kwh: use.Kwh(cells)))
            .Where(p => p.kwh > 0)
            .Select(p => Line(
                $"{name}, {layout.Plan.Calendar.Periods[p.period]}", decimal.Round(p.kwh * width / total, 12), PriceIn(block, p.period), rounding));
    }

    public decimal PriceIn(int block, int period) => Charge.Blocks[block].PriceIn(layout.Plan.Calendar.Periods[period]);

    private BillLine Line(string name, decimal kwh, decimal price, Rounding rounding) =>
        new(Part, name, kwh, "kWh", price, rounding.Line(kwh * price));
}
