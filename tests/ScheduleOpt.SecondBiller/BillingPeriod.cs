using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>One billing period with its days, months and season.</summary>
internal sealed class BillingPeriod
{
    private BillingPeriod(Context context, Instant start, Instant end)
    {
        (Start, End) = (start, end);
        var last = context.Legal.At(end - Duration.Epsilon).Date;

        // "Days of a billing period: each local date counts 1, a date that it covers in part the share of that date's own seconds. Each date's share is
        // rounded by itself (12 decimals), then they are summed."
        for (var date = context.Legal.At(start).Date; date <= last; date = date.PlusDays(1))
        {
            Instant from = context.Legal.StartOf(date), to = context.Legal.StartOf(date.PlusDays(1));
            var covered = (decimal)(Instant.Min(to, end) - Instant.Max(from, start)).TotalSeconds;
            Days.Add((date, Rounded.To12(covered / (decimal)(to - from).TotalSeconds)));
        }

        DayCount = Days.Sum(day => day.Share);
        Months = MonthsOf(context.Plan.Child("proration")!);

        // "The billing month is that of the billing period's first day, last day (the date on which its last instant lies), or reading date (the date of its end)."
        var day = context.Plan.Text("billingMonth") switch
        {
            "firstDay" => Days[0].Date,
            "readingDate" => context.Legal.At(end).Date,
            _ => last,
        };
        Month = day.ToYearMonth();
        Season = context.Plan.List("billingSeasons").FirstOrDefault(season => season.Integers("months")!.Contains(Month.Month))?.Text("name");
    }

    public Instant Start { get; }

    public Instant End { get; }

    public List<(LocalDate Date, decimal Share)> Days { get; } = [];

    public decimal DayCount { get; }

    public decimal Months { get; }

    public YearMonth Month { get; }

    public string? Season { get; }

    /// <summary>"Billing periods run from one reading date (its first instant) to the next, otherwise over calendar months; the series' start and end bound the
    /// first and the last."</summary>
    public static IEnumerable<BillingPeriod> Of(Context context)
    {
        var question = context.Question;
        IEnumerable<LocalDate> dates = question.ReadingDates?.Where(date => date > context.FirstDate && date < context.LastDate).Order() ?? Firsts(context.Legal.At(question.Start).Date, context.LastDate);
        var start = question.Start;
        foreach (var border in dates.Select(context.Legal.StartOf).Where(border => border > question.Start && border < question.End).Append(question.End))
        {
            if (border > start)
            {
                yield return new(context, start, border);
            }

            start = border;
        }
    }

    private static IEnumerable<LocalDate> Firsts(LocalDate from, LocalDate to)
    {
        for (var month = from.ToYearMonth(); month.OnDayOfMonth(1) <= to; month = month.PlusMonths(1))
        {
            yield return month.OnDayOfMonth(1);
        }
    }

    private decimal MonthsOf(JsonObject proration)
    {
        // "Where `wholeMonthDays` holds (both ends included), exactly 1."
        if (proration.Child("wholeMonthDays") is { } whole && DayCount >= whole.Number("from") && DayCount <= whole.Number("to"))
        {
            return 1;
        }

        return Rounded.To12(proration.Text("month") switch
        {
            "none" => 1,
            "thirtyDays" => DayCount / 30,
            "averageMonth" => DayCount * 12 / 365,
            // "`daysInMonth` the sum over calendar months of days / length of the month (the sum is rounded, not its terms)"
            "daysInMonth" => Days.GroupBy(day => day.Date.ToYearMonth())
                .Sum(month => month.Sum(day => day.Share) / month.Key.Calendar.GetDaysInMonth(month.Key.Year, month.Key.Month)),
            // "days x 12 / 365 to the nearest whole number (half up), at least 1"
            _ => Math.Max(1, Math.Floor(DayCount * 12 / 365 + 0.5m)),
        });
    }
}
