using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>An energy charge with the cells of use that it covers, and what a billing period's use costs under it.</summary>
internal sealed class ChargeLayout
{
    private readonly PlanLayout layout;
    private readonly bool[] dayCells;

    public ChargeLayout(PlanLayout layout, EnergyCharge charge, BillPart part)
    {
        (this.layout, Charge, Part) = (layout, charge, part);
        Cells = [.. Enumerable.Range(0, layout.Cells).Where(cell => layout.Covers(charge, cell))];
        dayCells = new bool[layout.Cells / layout.Periods];
        foreach (var cell in Cells)
        {
            dayCells[layout.DayCellOf(cell)] = true;
        }
    }

    public EnergyCharge Charge { get; }

    public BillPart Part { get; }

    /// <summary>The cells it covers, in order.</summary>
    public int[] Cells { get; }

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

    /// <summary>Upper limit of a block in a billing period; the largest number for the last. [kWh]</summary>
    public decimal Limit(int block, PeriodUse use)
    {
        if (Charge.Blocks[block].UpToKwh is not { } limit)
        {
            return decimal.MaxValue;
        }

        decimal covered = 0;
        for (var i = 0; i < dayCells.Length; i++)
        {
            covered += dayCells[i] ? use.Days[i] : 0;
        }

        // Whole periods first, so that a charge over all days keeps its limit to the last digit.
        var scaled = Charge.LimitPer == ChargeUnit.Day ? limit * covered
            : covered == use.TotalDays ? limit * use.Months
            : limit * use.Months * covered / use.TotalDays;
        // To the millionth of a kWh like the use, so that 30 kWh x 31/30 are 31 kWh.
        return decimal.Round(scaled, Charge.LimitInWholeKwh ? 0 : 6, MidpointRounding.AwayFromZero);
    }

    /// <summary>The block in which the next kWh after some use lies.</summary>
    public int BlockAfter(decimal kwh, PeriodUse use)
    {
        var block = 0;
        while (kwh >= Limit(block, use))
        {
            block++;
        }

        return block;
    }

    /// <summary>The lines of a billing period's use; none for a block without use.</summary>
    public IEnumerable<BillLine> Lines(PeriodUse use, Rounding rounding)
    {
        var total = Use(use);
        decimal below = 0;
        for (var block = 0; below < total; block++)
        {
            var limit = Math.Min(Limit(block, use), total);
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
