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
    private readonly int[] latest = LatestOf(PerKwh);

    /// <summary>A price for each interval; none where it is missing. [currency/kWh]</summary>
    public IReadOnlyList<decimal?> PerKwh
    {
        get;
        init => (field, latest) = (value, LatestOf(value));
    }
    = PerKwh;

    /// <summary>Series are equal where start, interval and list of prices are.</summary>
    public bool Equals(PriceSeries? other) =>
        other is not null && Start == other.Start && Interval == other.Interval && ReferenceEquals(PerKwh, other.PerKwh);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Start, Interval, PerKwh.Count);

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

    /// <summary>The price of an interval as published; none where it is missing.</summary>
    internal decimal? At(long index) => index >= 0 && index < PerKwh.Count ? PerKwh[(int)index] : null;

    private decimal? Previous(long index) =>
        index > 0 && latest.Length > 0 && latest[Math.Min(index, latest.Length) - 1] is >= 0 and var i ? PerKwh[i] : null;

    // Index of the latest price up to each interval, -1 before the first: looked up, not searched, for each of many missing ones.
    private static int[] LatestOf(IReadOnlyList<decimal?> prices)
    {
        var latest = new int[prices.Count];
        var found = -1;
        for (var i = 0; i < latest.Length; i++)
        {
            found = prices[i] is null ? found : i;
            latest[i] = found;
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
