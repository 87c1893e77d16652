using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>A charge per kWh with the cells of use that it covers, and what a billing period's use costs under it.</summary>
internal sealed class ChargeLayout
{
    private const int ShareDecimals = 12, ShownDecimals = 6;

    public ChargeLayout(PlanLayout layout, EnergyCharge charge, BillPart part)
    {
        (Charge, Part) = (charge, part);
        Scope = new(layout, charge);
        Series = charge.Hourly is { } hourly ? layout.Input.Prices[hourly.Series] : null;
    }

    public EnergyCharge Charge { get; }

    public BillPart Part { get; }

    public ScopeLayout Scope { get; }

    /// <summary>The price series of an hourly price; none for other charges.</summary>
    public PriceSeries? Series { get; }

    private bool IsExport => Part == BillPart.ExportCredit;

    /// <summary>Whether its prices by block and period are sums of one for the block and one for the period.</summary>
    public bool IsSeparable
    {
        get
        {
            var periods = Scope.Cells.Select(Scope.Calendar.PeriodOf).Distinct().ToArray();
            return Enumerable.Range(1, Charge.Blocks.Count - 1).All(b => periods.All(p => PriceIn(b, p) - PriceIn(0, p) == PriceIn(b, periods[0]) - PriceIn(0, periods[0])));
        }
    }

    /// <summary>The least that one more kWh costs under it; none where that goes by the hour, or more use may cost less in all. [currency/kWh]</summary>
    public decimal? LeastPrice => Charge.WholeUse || Series is not null || Scope.Cells.Length == 0
        ? null
        : Charge.LossFactor * Scope.Cells.Select(Scope.Calendar.PeriodOf).Distinct().Min(p => Enumerable.Range(0, Charge.Blocks.Count).Min(b => PriceIn(b, p)));

    /// <summary>Upper limits of the blocks in a billing period; the largest number for the last. [kWh]</summary>
    /// <param name="use">The billing period.</param>
    /// <param name="billedKw">Billed power of the demand charge that limits are multiplied by; zero where there is none. [kW]</param>
    public decimal[] Limits(PeriodUse use, decimal billedKw)
    {
        var limits = new decimal[Charge.Blocks.Count];
        for (var i = 0; i < limits.Length; i++)
        {
            limits[i] = Limit(Charge.Blocks[i], use, billedKw);
            limits[i] = i > 0 && limits[i] < limits[i - 1] ? limits[i - 1] : limits[i];
        }

        return limits;
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

    /// <summary>The lines of a billing period's use; none for a block without use.</summary>
    public IEnumerable<BillLine> Lines(PeriodUse use, Rounding rounding, decimal billedKw)
    {
        if (!Scope.PricesUseOf(use))
        {
            return [];
        }

        var total = PeriodUse.Kwh(Scope.MicroKwh(use, IsExport));
        return total == 0 ? []
            : Series is not null ? [HourlyLine(use, total, rounding)]
            : !Charge.HasBlocks && !Charge.HasPricesByPeriod ? [Line(Charge.Name, total, Charge.Blocks[0].PricePerKwh, rounding, "energy x price")]
            : Charge.FillsInTimeOrder && Charge.HasPricesByPeriod && !Charge.WholeUse ? TimeOrderLines(use, rounding, billedKw)
            : BlockLines(use, total, rounding, billedKw);
    }

    public decimal PriceIn(int block, int period) => Charge.Blocks[block].PriceIn(Scope.Calendar.Calendar.Periods[period]);

    /// <summary>Use by period. [1e-6 kWh]</summary>
    public long[] UseByPeriod(PeriodUse use)
    {
        var byPeriod = new long[Scope.Calendar.Periods];
        foreach (var cell in Scope.Cells)
        {
            byPeriod[Scope.Calendar.PeriodOf(cell)] += use.Import[Scope.Calendar.Index][cell];
        }

        return byPeriod;
    }

    /// <summary>Energy by block and period when it fills the blocks in order of time. [1e-6 kWh]</summary>
    public long[,] InTimeOrder(PeriodUse use, decimal[] limits)
    {
        var filled = new long[limits.Length, Scope.Calendar.Periods];
        if (use.Billed is null)
        {
            return filled;
        }

        long used = 0;
        var block = 0;
        foreach (var span in use.Spans[Scope.Calendar.Index])
        {
            if (!Scope.Covers(Scope.Calendar.CellOf(span)))
            {
                continue;
            }

            var energy = UseSorter.Energy(use.Billed.Import, span.StartSecond, span.EndSecond);
            while (energy > 0)
            {
                var room = limits[block] == decimal.MaxValue ? long.MaxValue : (long)(limits[block] * MeteredSeries.UnitsPerKilowattHour) - used;
                if (room <= 0)
                {
                    block++;
                    continue;
                }

                var put = Math.Min(room, energy);
                filled[block, span.Period] += put;
                (used, energy) = (used + put, energy - put);
            }
        }

        return filled;
    }

    /// <summary>When use that fills blocks in order of time reaches each limit: start of the interval, and its period.</summary>
    public List<(long Second, int Period)> Crossings(PeriodUse use, decimal[] limits)
    {
        var crossings = new List<(long, int)>();
        if (use.Billed is not { Import: var series })
        {
            return crossings;
        }

        long start = series.StartSecond, length = series.IntervalSeconds, used = 0;
        foreach (var span in use.Spans[Scope.Calendar.Index].Where(s => Scope.Covers(Scope.Calendar.CellOf(s))))
        {
            for (var at = Math.Max(span.StartSecond, start); at < span.EndSecond;)
            {
                var next = Math.Min(span.EndSecond, start + ((((at - start) / length) + 1) * length));
                used += UseSorter.Energy(series, at, next);
                while (limits[crossings.Count] != decimal.MaxValue && used >= limits[crossings.Count] * MeteredSeries.UnitsPerKilowattHour)
                {
                    crossings.Add((at, span.Period));
                }

                at = next;
            }
        }

        return crossings;
    }

    private decimal Limit(Block block, PeriodUse use, decimal billedKw)
    {
        if (!block.IsLimited)
        {
            return decimal.MaxValue;
        }

        var limit = block.UpToKwh is { } kwh ? Scaled(kwh, use) : decimal.MaxValue;
        limit = block.UpToKwhPerKw is { } perKw ? Math.Min(limit, perKw * billedKw) : limit;
        // To the millionth of a kWh like the use, so that 30 kWh x 31/30 are 31 kWh.
        return decimal.Round(limit, Charge.LimitInWholeKwh ? 0 : 6, MidpointRounding.AwayFromZero);
    }

    private decimal Scaled(decimal limit, PeriodUse use)
    {
        var days = Scope.Days(use);
        return Charge.LimitPer switch
        {
            ChargeUnit.Day => limit * days,
            ChargeUnit.ThirtyDays => limit * days / 30,
            ChargeUnit.BillingPeriod => limit,
            // Whole periods first, so that a charge over all days keeps its limit to the last digit.
            _ => days == use.TotalDays ? limit * use.Months : limit * use.Months * days / use.TotalDays,
        };
    }

    private List<BillLine> BlockLines(PeriodUse use, decimal total, Rounding rounding, decimal billedKw)
    {
        var lines = new List<BillLine>();
        var limits = Limits(use, billedKw);
        if (Charge.WholeUse)
        {
            var block = 0;
            while (total > limits[block])
            {
                block++;
            }

            AddBlock(lines, block, total, total, use, rounding);
            return lines;
        }

        decimal below = 0;
        for (var block = 0; below < total; block++)
        {
            var limit = Math.Min(limits[block], total);
            if (limit > below)
            {
                AddBlock(lines, block, limit - below, total, use, rounding);
                below = limit;
            }
        }

        return lines;
    }

    private void AddBlock(List<BillLine> lines, int block, decimal width, decimal total, PeriodUse use, Rounding rounding)
    {
        var name = BlockName(block);
        var rule = Charge.WholeUse ? "all the use at the price of the block that it ends in" : "energy of the block x its price";
        if (Charge.Blocks[block].PriceByPeriod is null)
        {
            lines.Add(Line(name, width, Charge.Blocks[block].PricePerKwh, rounding, rule));
            return;
        }

        var byPeriod = UseByPeriod(use);
        for (var period = 0; period < byPeriod.Length; period++)
        {
            if (byPeriod[period] > 0)
            {
                var share = decimal.Round(PeriodUse.Kwh(byPeriod[period]) * width / total, ShareDecimals);
                lines.Add(Line($"{name}, {Scope.Calendar.Calendar.Periods[period]}", share, PriceIn(block, period), rounding, rule + ", split over the periods in proportion to their use"));
            }
        }
    }

    private List<BillLine> TimeOrderLines(PeriodUse use, Rounding rounding, decimal billedKw)
    {
        var lines = new List<BillLine>();
        var filled = InTimeOrder(use, Limits(use, billedKw));
        for (var block = 0; block < Charge.Blocks.Count; block++)
        {
            for (var period = 0; period < Scope.Calendar.Periods; period++)
            {
                if (filled[block, period] > 0)
                {
                    lines.Add(Line(
                        $"{BlockName(block)}, {Scope.Calendar.Calendar.Periods[period]}", PeriodUse.Kwh(filled[block, period]), PriceIn(block, period), rounding, "energy of the block x its price, blocks filled in order of time"));
                }
            }
        }

        return lines;
    }

    private BillLine HourlyLine(PeriodUse use, decimal kwh, Rounding rounding)
    {
        decimal amount = 0;
        var series = (IsExport ? use.Billed!.Export : use.Billed!.Import)!;
        foreach (var span in use.Spans[Scope.Calendar.Index])
        {
            if (!Scope.Covers(Scope.Calendar.CellOf(span)))
            {
                continue;
            }

            var index = Series!.IndexAt(span.StartSecond);
            for (long at = span.StartSecond, next, end = Series.StartOf(index + 1); at < span.EndSecond; at = next, index++, end += Series.IntervalSeconds)
            {
                next = Math.Min(end, span.EndSecond);
                if (UseSorter.Energy(series, at, next) is var energy && energy != 0)
                {
                    // A bill is made only where each price is known; expected use may reach further.
                    amount += energy * (Series.Charged(Charge.Hourly!, index) ?? 0);
                }
            }
        }

        amount = amount / MeteredSeries.UnitsPerKilowattHour * Charge.LossFactor;
        amount = IsExport ? -amount : amount;
        var quantity = kwh * Charge.LossFactor;
        return Line(Charge.Name, quantity, decimal.Round(amount / quantity, ShownDecimals), amount, rounding, $"energy x price of each interval of {Charge.Hourly!.Series}");
    }

    private string BlockName(int block) => Charge.HasBlocks ? $"{Charge.Name}, block {block + 1}" : Charge.Name;

    private BillLine Line(string name, decimal kwh, decimal price, Rounding rounding, string rule)
    {
        var (quantity, signed) = (kwh * Charge.LossFactor, IsExport ? -price : price);
        return Line(name, quantity, signed, quantity * signed, rounding, Charge.LossFactor == 1 ? rule : rule + $", energy x {Charge.LossFactor} for losses");
    }

    private BillLine Line(string name, decimal quantity, decimal price, decimal amount, Rounding rounding, string rule) =>
        new(Part, name, quantity, "kWh", price, rounding.Line(amount))
        {
            Rule = rule,
            Place = Charge.Place,
            Charge = Charge.Name,
            Layer = Part == BillPart.EnergyCharge ? Charge.Layer : null,
        };
}
