using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>The spans over which a demand charge averages power within a horizon.</summary>
/// <remarks>They begin in the charge's hours: at multiples of their length since 1970-01-01T00:00Z, or, where they slide, at every boundary of the grid. One
/// that is under way at the start counts if it began in them; one that the billing period cuts off does not.</remarks>
internal static class AveragingWindows
{
    /// <summary>The spans, whole; some may reach beyond the horizon.</summary>
    public static IEnumerable<Interval> Of(DemandTerm term, Instant[] boundaries)
    {
        var (start, end) = (boundaries[0], boundaries[^1]);
        foreach (var hours in term.Hours)
        {
            var from = hours.HasStart ? hours.Start : Instant.MinValue;
            var until = Instant.Min(end, hours.HasEnd ? hours.End : Instant.MaxValue);
            foreach (var at in term.Sliding ? boundaries.AsEnumerable() : Aligned(term.Averaging, start, until))
            {
                if (at >= from && at < until && at + term.Averaging > start && at + term.Averaging <= term.BillingPeriod.End)
                {
                    yield return new Interval(at, at + term.Averaging);
                }
            }
        }
    }

    private static IEnumerable<Instant> Aligned(Duration length, Instant start, Instant until)
    {
        var step = (long)length.TotalSeconds;
        var first = Math.DivRem(start.ToUnixTimeSeconds(), step, out var rest) - (rest < 0 ? 1 : 0);
        for (var at = Instant.FromUnixTimeSeconds(first * step); at < until; at += length)
        {
            yield return at;
        }
    }
}
