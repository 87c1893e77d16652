using NodaTime;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs;

/// <summary>Where a price series that a plan follows has no price.</summary>
/// <param name="Series">Name of the series.</param>
/// <param name="Rule">The plan's rule for missing prices.</param>
/// <param name="FirstFilled">Start of the first interval whose price the rule gives; none where every price is there.</param>
/// <param name="Filled">How many intervals the rule fills.</param>
/// <param name="FirstMissing">Start of the first interval for which no rule gives a price; none where there is none.</param>
public sealed record PriceGap(string Series, MissingPrice Rule, Instant? FirstFilled, int Filled, Instant? FirstMissing);

/// <summary>Finds intervals without a price.</summary>
public static class PriceGaps
{
    /// <summary>The gaps of a span of time, one for each series and rule that has any. A series that is not given at all has none.</summary>
    /// <param name="plan">The plan, its choices made.</param>
    /// <param name="from">Start of what is to be priced, included.</param>
    /// <param name="until">End of it, excluded.</param>
    /// <param name="prices">Price series by name, each on the clock.</param>
    public static IReadOnlyList<PriceGap> Of(RatePlan plan, Instant from, Instant until, IReadOnlyDictionary<string, PriceSeries> prices)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(prices);
        var rules = plan.EnergyCharges.Concat(plan.Adjustments).Concat(plan.Export?.Prices ?? [])
            .Select(c => c.Hourly).OfType<HourlyPrice>().DistinctBy(h => (h.Series, h.Missing));
        var gaps = new List<PriceGap>();
        foreach (var hourly in rules)
        {
            if (prices.TryGetValue(hourly.Series, out var series) && series.IsOnTheClock
                && Of(hourly, series, from.ToUnixTimeSeconds(), until.ToUnixTimeSeconds()) is { } gap)
            {
                gaps.Add(gap);
            }
        }

        return gaps;
    }

    private static PriceGap? Of(HourlyPrice hourly, PriceSeries series, long from, long until)
    {
        long? filledAt = null;
        var filled = 0;
        for (var index = series.IndexAt(from); series.StartOf(index) < until; index++)
        {
            if (series.At(index) is not null)
            {
                continue;
            }

            var start = series.StartOf(index);
            if (series.Price(hourly, index) is null)
            {
                return new(hourly.Series, hourly.Missing, At(filledAt), filled, Instant.FromUnixTimeSeconds(start));
            }

            filledAt ??= start;
            filled++;
        }

        return filled == 0 ? null : new(hourly.Series, hourly.Missing, At(filledAt), filled, null);
    }

    private static Instant? At(long? second) => second is { } s ? Instant.FromUnixTimeSeconds(s) : null;
}
