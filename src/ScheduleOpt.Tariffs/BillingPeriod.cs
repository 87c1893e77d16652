using NodaTime;

namespace ScheduleOpt.Tariffs;

/// <summary>From one meter reading to the next.</summary>
/// <param name="Start">Start, included.</param>
/// <param name="End">End, excluded.</param>
public readonly record struct BillingPeriod(Instant Start, Instant End)
{
    /// <summary>Cuts a span at the starts of reading dates, or of calendar months where there are none.</summary>
    /// <param name="zone">Zone of the dates.</param>
    /// <param name="from">Start of the span.</param>
    /// <param name="until">End of the span, later than its start.</param>
    /// <param name="readingDates">Dates at whose start the meter was read, in any order; those outside the span are ignored.</param>
    public static IReadOnlyList<BillingPeriod> Cut(
        DateTimeZone zone, Instant from, Instant until, IReadOnlyList<LocalDate>? readingDates = null)
    {
        // Dates are compared as dates: those at the ends of the calendar have no instant.
        var (first, last) = (from.InZone(zone).Date, until.InZone(zone).Date);
        var cuts = (readingDates ?? Months(first, last))
            .Where(date => date >= first && date <= last)
            .Select(date => zone.AtStartOfDay(date).ToInstant())
            .Where(instant => instant > from && instant < until)
            .Distinct()
            .Order();
        var periods = new List<BillingPeriod>();
        var start = from;
        foreach (var cut in cuts.Append(until))
        {
            periods.Add(new(start, cut));
            start = cut;
        }

        return periods;
    }

    private static List<LocalDate> Months(LocalDate from, LocalDate until)
    {
        var months = new List<LocalDate>();
        for (var month = from.With(DateAdjusters.StartOfMonth); month <= until; month = month.PlusMonths(1))
        {
            months.Add(month);
        }

        return months;
    }
}
