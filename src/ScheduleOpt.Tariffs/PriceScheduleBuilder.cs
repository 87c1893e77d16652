using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Prices;

namespace ScheduleOpt.Tariffs;

/// <summary>Works out what one more kWh costs at each instant: the rate plan as the scheduler sees it.</summary>
public static class PriceScheduleBuilder
{
    /// <summary>The price schedule of a rate plan over a span of time.</summary>
    /// <param name="plan">A plan that <see cref="RatePlanCheck"/> finds in order.</param>
    /// <param name="from">Start, included; a whole second.</param>
    /// <param name="until">End, excluded; a whole second, later than the start.</param>
    /// <param name="expectedUse">Expected use without what is to be scheduled. All of it that lies in a billing period counts towards the blocks of that
    /// billing period, before <paramref name="from"/> too.</param>
    /// <param name="usedSoFar">Energy metered in the billing period of <paramref name="from"/> before <paramref name="expectedUse"/> begins; zero or
    /// more.</param>
    /// <param name="readingDates">Dates at whose start the meter is read; none for calendar months.</param>
    /// <returns>Energy charge in the block reached, plus adjustments, plus the percentages on both. Customer charges don't depend on use; demand
    /// charges and a minimum bill are not in a price per kWh: warnings say so.</returns>
    public static PriceSchedule Build(
        RatePlan plan,
        Instant from,
        Instant until,
        MeteredSeries? expectedUse = null,
        Energy usedSoFar = default,
        IReadOnlyList<LocalDate>? readingDates = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(until, from);
        ArgumentOutOfRangeException.ThrowIfLessThan(usedSoFar, Energy.Zero);
        var periods = Whole(plan.Zone, from, until, readingDates);
        var layout = new PlanLayout(plan, periods[0].Start, periods[^1].End);
        var multiplier = TaxMultiplier.Of(plan);
        var spans = new List<PriceSpan>();
        var warnings = PriceWarnings.Of(plan, from, until);
        foreach (var period in periods)
        {
            var use = UseSorter.Sort(layout, period, expectedUse);
            var before = spans.Count == 0 ? (decimal)usedSoFar.KilowattHours : 0;
            var prices = new MarginalPrices(layout, use, before, multiplier);
            foreach (var span in layout.Walk.Spans(Instant.Max(from, period.Start), Instant.Min(until, period.End)))
            {
                spans.Add(new(
                    Instant.FromUnixTimeSeconds(span.StartSecond),
                    prices[layout.CellOf(span.Slice, span.Season, span.Period)],
                    plan.Calendar.Periods[span.Period]));
            }

            warnings.AddRange(prices.Warnings(period));
        }

        return new(spans, until, plan.Currency, warnings);
    }

    /// <summary>The whole billing periods that a span touches: limits follow their length, not the span's.</summary>
    private static BillingPeriod[] Whole(DateTimeZone zone, Instant from, Instant until, IReadOnlyList<LocalDate>? readingDates)
    {
        var (first, last) = (from.InZone(zone).Date, (until - Duration.Epsilon).InZone(zone).Date);
        var start = first.With(DateAdjusters.StartOfMonth);
        var end = last.With(DateAdjusters.EndOfMonth).PlusDays(1);
        if (readingDates is { Count: > 0 })
        {
            start = readingDates.Where(d => d <= first).DefaultIfEmpty(start).Max();
            end = readingDates.Where(d => d > last).DefaultIfEmpty(end).Min();
        }

        return [.. BillingPeriod.Cut(zone, zone.AtStartOfDay(start).ToInstant(), zone.AtStartOfDay(end).ToInstant(), readingDates)
            .Where(p => p.End > from && p.Start < until)];
    }
}
