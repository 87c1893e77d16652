using System.Runtime.CompilerServices;
using NodaTime;
using ScheduleOpt.Tariffs.Calendars;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>Sorts a metered series into the cells of a plan, one billing period at a time.</summary>
internal static class UseSorter
{
    // Thirds of a day or a month end here, so that amounts stay short enough for decimal sums to be exact in any order.
    private const int ShareDecimals = 12;

    /// <summary>Use and length of a billing period.</summary>
    /// <param name="layout">The plan's layout; it covers the billing period.</param>
    /// <param name="period">The billing period.</param>
    /// <param name="billed">The series; none for no use. Only the part inside the billing period counts.</param>
    public static PeriodUse Sort(PlanLayout layout, BillingPeriod period, BilledUse? billed)
    {
        var calendars = layout.Calendars;
        long[][] import = new long[calendars.Length][], export = new long[calendars.Length][];
        var days = new decimal[calendars.Length][];
        var spans = new List<CalendarSpan>[calendars.Length];
        var dates = DaysOf(layout.Plan.Zone, period);
        for (var c = 0; c < calendars.Length; c++)
        {
            var calendar = calendars[c];
            spans[c] = calendar.Walk.Spans(period.Start, period.End);
            import[c] = Sorted(calendar, spans[c], billed?.Import);
            export[c] = Sorted(calendar, spans[c], billed?.Export);
            days[c] = new decimal[calendar.DayCells];
            foreach (var (date, share) in dates)
            {
                days[c][calendar.DayCellOf(date)] += share;
            }
        }

        decimal totalDays = 0, calendarMonths = 0;
        foreach (var (date, share) in dates)
        {
            totalDays += share;
        }

        foreach (var month in dates.GroupBy(d => (d.Date.Year, d.Date.Month)))
        {
            calendarMonths += month.Sum(d => d.Share) / CalendarSystem.Iso.GetDaysInMonth(month.Key.Year, month.Key.Month);
        }

        var billingDay = layout.Plan.BillingMonthDay switch
        {
            BillingMonthDay.FirstDay => dates[0].Date,
            BillingMonthDay.LastDay => dates[^1].Date,
            _ => period.End.InZone(layout.Plan.Zone).Date,
        };
        return new()
        {
            Period = period,
            Import = import,
            Export = export,
            Days = days,
            Spans = spans,
            TotalDays = totalDays,
            Months = decimal.Round(layout.Plan.Proration.Months(totalDays, calendarMonths), ShareDecimals),
            MonthIndex = (billingDay.Year * 12) + billingDay.Month - 1,
            BillingSeason = layout.Plan.BillingSeasonOf(billingDay.Month),
            Billed = billed,
        };
    }

    private static long[] Sorted(CalendarLayout calendar, List<CalendarSpan> spans, MeteredSeries? series)
    {
        var energy = new long[calendar.Cells];
        if (series is not null)
        {
            foreach (var span in spans)
            {
                energy[calendar.CellOf(span)] += Energy(series, span.StartSecond, span.EndSecond);
            }
        }

        return energy;
    }

    /// <summary>Energy of a series from one second to another; an interval that a border cuts is split by time, to the last unit. [1e-6 kWh]</summary>
    // Most of a bill's time is spent in it: optimised from its first call on.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static long Energy(MeteredSeries series, long fromSecond, long toSecond)
    {
        long start = series.StartSecond, length = series.IntervalSeconds;
        var from = Math.Max(fromSecond - start, 0);
        var to = Math.Min(toSecond - start, length * series.Count);
        if (from >= to)
        {
            return 0;
        }

        var energies = series.MicroKilowattHours;
        var (first, fromRest) = Math.DivRem(from, length);
        var (last, toRest) = Math.DivRem(to, length);
        long sum = 0;
        foreach (var energy in energies[(int)first..(int)last])
        {
            sum += energy;
        }

        // Shares are rounded down from the start of the interval on both sides of a border, so that the pieces add up to the whole.
        return sum
            - (fromRest == 0 ? 0 : Share(energies[(int)first], fromRest, length))
            + (toRest == 0 ? 0 : Share(energies[(int)last], toRest, length));
    }

    private static long Share(long energy, long part, long length) => (long)((Int128)energy * part / length);

    /// <summary>The dates of a billing period, each with the share of it that lies inside.</summary>
    public static List<(LocalDate Date, decimal Share)> DaysOf(DateTimeZone zone, BillingPeriod period)
    {
        var dates = new List<(LocalDate, decimal)>(32);
        var date = period.Start.InZone(zone).Date;
        var midnight = zone.AtStartOfDay(date).ToInstant();
        while (midnight < period.End)
        {
            var next = zone.AtStartOfDay(date.PlusDays(1)).ToInstant();
            var from = Instant.Max(midnight, period.Start);
            var to = Instant.Min(next, period.End);
            var share = from == midnight && to == next ? 1 : (decimal)(to - from).TotalSeconds / (decimal)(next - midnight).TotalSeconds;
            dates.Add((date, decimal.Round(share, ShareDecimals)));
            (date, midnight) = (date.PlusDays(1), next);
        }

        return dates;
    }
}
