using System.Runtime.CompilerServices;
using NodaTime;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs;

/// <summary>Prices that were published interval by interval, such as day-ahead prices. [currency/kWh]</summary>
/// <param name="Start">When the first price begins; a whole second.</param>
/// <param name="Interval">Length of every interval; whole minutes, from one minute to a day.</param>
/// <param name="PerKwh">A price for each interval; none where it is missing. Negative ones are prices like any other.</param>
public sealed record PriceSeries(Instant Start, Duration Interval, IReadOnlyList<decimal?> PerKwh)
{
    private const int DaysBack = 7;

    // For each interval of a series the latest one with a price; -1 for none.
    private static readonly ConditionalWeakTable<IReadOnlyList<decimal?>, int[]> LatestKnown = [];

    /// <summary>Whether start and interval are such that each second has one price.</summary>
    internal bool IsOnTheClock =>
        Interval >= Duration.FromMinutes(1) && Interval <= Duration.FromDays(1)
        && Interval == Duration.FromMinutes((long)Interval.TotalMinutes)
        && Start == Instant.FromUnixTimeSeconds(Start.ToUnixTimeSeconds());

    /// <summary>Length of every interval. [s]</summary>
    internal long IntervalSeconds => Interval.BclCompatibleTicks / NodaConstants.TicksPerSecond;

    /// <summary>Index of the interval that holds at a second; may lie outside the series.</summary>
    internal long IndexAt(long second)
    {
        var length = IntervalSeconds;
        var after = second - Start.ToUnixTimeSeconds();
        return after >= 0 ? after / length : -((length - 1 - after) / length);
    }

    internal long StartOf(long index) => Start.ToUnixTimeSeconds() + (index * IntervalSeconds);

    /// <summary>What is charged in an interval; none where no rule gives a price.</summary>
    internal decimal? Charged(HourlyPrice rule, long index) => Price(rule, index) is { } price ? rule.Of(price) : null;

    /// <summary>The price of an interval by the rule for missing ones; none where it gives none.</summary>
    internal decimal? Price(HourlyPrice rule, long index) => At(index) ?? rule.Missing switch
    {
        MissingPrice.Previous => Previous(index),
        MissingPrice.DayBefore => DayBefore(index),
        MissingPrice.Stated => rule.MissingAt,
        _ => null,
    };

    private decimal? At(long index) => index >= 0 && index < PerKwh.Count ? PerKwh[(int)index] : null;

    // The latest price known in the interval or before it; looked for once, however many are missing.
    private decimal? Previous(long index)
    {
        if (PerKwh.Count == 0 || index < 0)
        {
            return null;
        }

        var known = LatestKnown.GetValue(PerKwh, LatestOf);
        return known[(int)Math.Min(index, PerKwh.Count - 1)] is var found and >= 0 ? PerKwh[found] : null;
    }

    private static int[] LatestOf(IReadOnlyList<decimal?> prices)
    {
        var latest = new int[prices.Count];
        for (var i = 0; i < latest.Length; i++)
        {
            latest[i] = prices[i] is not null ? i : i == 0 ? -1 : latest[i - 1];
        }

        return latest;
    }

    private decimal? DayBefore(long index)
    {
        var second = StartOf(index);
        for (var day = 1; day <= DaysBack; day++)
        {
            if (At(IndexAt(second - (day * NodaConstants.SecondsPerDay))) is { } price)
            {
                return price;
            }
        }

        return null;
    }
}
