using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What one more kWh adds to the bill of one billing period, percentages included.</summary>
internal sealed class PeriodPrices
{
    private readonly PlanLayout layout;
    private readonly PeriodUse use;
    private readonly ChargePrices[] charges;
    private readonly ChargePrices[] filling;
    private readonly (ChargeLayout Charge, decimal Factor)[] hourly;
    private readonly (ChargeLayout Charge, decimal Factor, decimal Price)[] exports;
    private readonly decimal?[][] prices;

    /// <param name="layout">The plan's layout.</param>
    /// <param name="use">Expected use of the billing period.</param>
    /// <param name="before">Use on top of it, of unknown hours. [kWh]</param>
    /// <param name="expected">The statement of the expected use.</param>
    public PeriodPrices(PlanLayout layout, PeriodUse use, decimal before, ExpectedStatement expected)
    {
        (this.layout, this.use, UsedKwh, Expected) = (layout, use, use.TotalKwh + before, expected);
        var perKwh = layout.EnergyCharges.Concat(layout.Adjustments).Where(c => c.Scope.PricesUseOf(use)).ToArray();
        charges = [.. perKwh.Where(c => c.Series is null).Select(c =>
            new ChargePrices(c, use, before, c.Charge.LimitDemand is { } d ? expected.BilledKw.GetValueOrDefault(d) : 0, Factor(c)))];
        filling = [.. charges.Where(c => c.ChangesOverTime)];
        hourly = [.. perKwh.Where(c => c.Series is not null).Select(c => (c, Factor(c)))];
        exports = [.. layout.ExportPrices.Where(c => c.Scope.PricesUseOf(use)).Select(c => (c, Factor(c), BlockReached(c)))];
        prices = [.. layout.Calendars.Select(c => new decimal?[c.Cells])];
    }

    /// <summary>All the use of the billing period, so far and expected: what bands look at. [kWh]</summary>
    public decimal UsedKwh { get; }

    public ExpectedStatement Expected { get; }

    public IReadOnlyList<ChargePrices> Charges => charges;

    /// <summary>Prices from one second to another, in order, before net metering.</summary>
    public IEnumerable<PriceSpan> Spans(long from, long until)
    {
        var at = new int[layout.Calendars.Length];
        for (var second = from; second < until;)
        {
            var next = until;
            decimal import = Expected.Stack.PerKwh, export = 0;
            for (var c = 0; c < at.Length; c++)
            {
                while (use.Spans[c][at[c]].EndSecond <= second)
                {
                    at[c]++;
                }

                var span = use.Spans[c][at[c]];
                next = Math.Min(next, span.EndSecond);
                import += CellPrice(c, layout.Calendars[c].CellOf(span));
            }

            foreach (var charge in filling)
            {
                import += Covers(charge.Charge, at) ? charge.At(second, use.Spans[charge.Charge.Scope.Calendar.Index][at[charge.Charge.Scope.Calendar.Index]].Period, ref next) : 0;
            }

            foreach (var (charge, factor) in hourly)
            {
                import += Hourly(charge, factor, at, second, ref next);
            }

            foreach (var (charge, factor, price) in exports)
            {
                export += charge.Series is not null ? Hourly(charge, factor, at, second, ref next)
                    : Covers(charge, at) ? price * factor * charge.Charge.LossFactor : 0;
            }

            yield return new(Instant.FromUnixTimeSeconds(second), import, layout.Main.Calendar.Periods[use.Spans[0][at[0]].Period], export);
            second = next;
        }
    }

    /// <summary>The hours that a charge covers between two instants, in order.</summary>
    public IReadOnlyList<Interval> Hours(ScopeLayout scope, Instant from, Instant until)
    {
        var hours = new List<Interval>();
        long first = from.ToUnixTimeSeconds(), end = until.ToUnixTimeSeconds(), begins = 0, ends = long.MinValue;
        foreach (var span in use.Spans[scope.Calendar.Index])
        {
            long start = Math.Max(span.StartSecond, first), stop = Math.Min(span.EndSecond, end);
            if (start >= stop || !scope.Covers(scope.Calendar.CellOf(span)))
            {
                continue;
            }

            // Neighbours run on.
            if (start != ends)
            {
                Close();
                begins = start;
            }

            ends = stop;
        }

        Close();
        return hours;

        void Close()
        {
            if (ends != long.MinValue)
            {
                hours.Add(new(Instant.FromUnixTimeSeconds(begins), Instant.FromUnixTimeSeconds(ends)));
            }
        }
    }

    // The price of the next exported kWh.
    private decimal BlockReached(ChargeLayout export) =>
        export.PriceIn(ChargeLayout.BlockAfter(PeriodUse.Kwh(export.Scope.MicroKwh(use, export: true)), export.Limits(use, 0)), 0);

    private decimal CellPrice(int calendar, int cell) =>
        prices[calendar][cell] ??= Sum(calendar, cell);

    private decimal Sum(int calendar, int cell)
    {
        decimal sum = 0;
        foreach (var charge in charges)
        {
            if (!charge.ChangesOverTime && charge.Charge.Scope.Calendar.Index == calendar && charge.Charge.Scope.Covers(cell))
            {
                sum += charge.In(layout.Calendars[calendar].PeriodOf(cell));
            }
        }

        foreach (var (credit, scope) in layout.Credits)
        {
            if (credit.Per == ChargeUnit.KilowattHour && scope.Calendar.Index == calendar && scope.Covers(cell) && scope.PricesUseOf(use)
                && credit.UseBand?.Holds(UsedKwh) != false)
            {
                sum -= credit.Amount * Expected.Stack.Of(BillPart.Credit, credit.Name);
            }
        }

        return sum;
    }

    private decimal Hourly(ChargeLayout charge, decimal factor, int[] at, long second, ref long next)
    {
        if (!Covers(charge, at))
        {
            return 0;
        }

        var index = charge.Series!.IndexAt(second);
        next = Math.Min(next, charge.Series.StartOf(index + 1));
        return (charge.Series.Charged(charge.Charge.Hourly!, index) ?? 0) * factor * charge.Charge.LossFactor;
    }

    private bool Covers(ChargeLayout charge, int[] at)
    {
        var calendar = charge.Scope.Calendar;
        return charge.Scope.Covers(calendar.CellOf(use.Spans[calendar.Index][at[calendar.Index]]));
    }

    private decimal Factor(ChargeLayout charge) =>
        Expected.Stack.Of(charge.Part, charge.Charge.Name, charge.Part == BillPart.EnergyCharge ? charge.Charge.Layer : null);
}
