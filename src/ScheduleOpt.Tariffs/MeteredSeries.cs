using NodaTime;

namespace ScheduleOpt.Tariffs;

/// <summary>Energy taken from the network in equal metering intervals that follow one another. [1e-6 kWh at the meter]</summary>
/// <remarks>Amounts are whole millionths of a kWh, so that sums are exact in any order and additive to the last digit. Import only.</remarks>
public sealed class MeteredSeries
{
    /// <summary>How many units make one kWh.</summary>
    public const int UnitsPerKilowattHour = 1_000_000;

    /// <summary>The largest energy of one interval. [kWh]</summary>
    public const double LargestKilowattHours = 1_000_000;

    /// <summary>No series begins before this.</summary>
    public static readonly Instant Earliest = Instant.FromUtc(1900, 1, 1, 0, 0);

    /// <summary>No series ends after this.</summary>
    public static readonly Instant Latest = Instant.FromUtc(2200, 1, 1, 0, 0);

    private readonly long[] microKwh;

    private MeteredSeries(Instant start, Duration interval, long[] microKwh)
    {
        (Start, Interval, this.microKwh) = (start, interval, microKwh);
        (StartSecond, IntervalSeconds) = (start.ToUnixTimeSeconds(), interval.BclCompatibleTicks / NodaConstants.TicksPerSecond);
    }

    /// <summary>When the first interval begins; a whole second.</summary>
    public Instant Start { get; }

    /// <summary>Length of every interval, from one minute to one day, whole minutes.</summary>
    public Duration Interval { get; }

    /// <summary>When the first interval begins. [s since 1970-01-01T00:00Z]</summary>
    internal long StartSecond { get; }

    /// <summary>Length of every interval. [s]</summary>
    internal long IntervalSeconds { get; }

    /// <summary>When the last interval ends. [s since 1970-01-01T00:00Z]</summary>
    internal long EndSecond => StartSecond + (IntervalSeconds * Count);

    /// <summary>When the last interval ends.</summary>
    public Instant End => Start + (Interval * microKwh.Length);

    /// <summary>Number of intervals, at least one.</summary>
    public int Count => microKwh.Length;

    /// <summary>Energy of each interval. [1e-6 kWh]</summary>
    public ReadOnlySpan<long> MicroKilowattHours => microKwh;

    /// <summary>Energy of the whole series. [kWh]</summary>
    public decimal TotalKilowattHours => Sum(microKwh) / (decimal)UnitsPerKilowattHour;

    /// <summary>Makes a series, rounding each interval once to the nearest millionth of a kWh.</summary>
    /// <param name="start">When the first interval begins; a whole second.</param>
    /// <param name="interval">Length of every interval, from one minute to one day, whole minutes.</param>
    /// <param name="kwh">Energy of each interval, zero to <see cref="LargestKilowattHours"/>. [kWh]</param>
    /// <exception cref="ArgumentOutOfRangeException">No interval, a start or length out of range, or an amount that is negative, too large or not
    /// finite.</exception>
    public static MeteredSeries FromKilowattHours(Instant start, Duration interval, ReadOnlySpan<double> kwh)
    {
        Check(start, interval, kwh.Length);
        var units = new long[kwh.Length];
        for (var i = 0; i < kwh.Length; i++)
        {
            if (!(kwh[i] >= 0 && kwh[i] <= LargestKilowattHours))
            {
                throw new ArgumentOutOfRangeException(
                    nameof(kwh), kwh[i], $"The energy of interval {i} must be from 0 to {LargestKilowattHours} kWh.");
            }

            units[i] = (long)Math.Round(kwh[i] * UnitsPerKilowattHour, MidpointRounding.AwayFromZero);
        }

        return new(start, interval, units);
    }

    /// <summary>The intervals that begin in a span of time, as a series of their own.</summary>
    /// <param name="from">Start, included.</param>
    /// <param name="until">End, excluded.</param>
    /// <exception cref="ArgumentOutOfRangeException">No interval begins there.</exception>
    public MeteredSeries Between(Instant from, Instant until)
    {
        var (first, end) = (FirstAtOrAfter(from), FirstAtOrAfter(until));
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(end, first, nameof(until));
        return new(Start + (Interval * first), Interval, microKwh[first..end]);
    }

    /// <summary>A series of energies that are zero or more. [1e-6 kWh]</summary>
    internal static MeteredSeries FromUnits(Instant start, Duration interval, long[] energies) => new(start, interval, energies);

    /// <summary>The same series after some intervals without energy.</summary>
    internal MeteredSeries After(int intervals) => new(Start - (Interval * intervals), Interval, [.. new long[intervals], .. microKwh]);

    /// <summary>The same intervals with other energies. [1e-6 kWh]</summary>
    internal MeteredSeries With(long[] energies) => new(Start, Interval, energies);

    /// <summary>The end of this series, longer by that of another where that one ends where this one begins.</summary>
    internal MeteredSeries Recent(MeteredSeries? before, Duration length)
    {
        var from = End - length;
        var own = Start >= from ? this : Between(from, End);
        return before is null || Start <= from || before.End != Start || before.Interval != Interval
            ? own
            : (before.Start >= from ? before : before.Between(from, before.End)) is var earlier
                ? new(earlier.Start, Interval, [.. earlier.microKwh, .. own.microKwh])
                : own;
    }

    private int FirstAtOrAfter(Instant instant)
    {
        var seconds = (instant - Start).TotalSeconds / Interval.TotalSeconds;
        return (int)Math.Clamp(Math.Ceiling(seconds), 0, Count);
    }

    /// <summary>The same intervals with another series added, such as the car's use to the house's.</summary>
    /// <exception cref="ArgumentException">The other series has another start, interval or length.</exception>
    public MeteredSeries Plus(MeteredSeries other)
    {
        if (other.Start != Start || other.Interval != Interval || other.Count != Count)
        {
            throw new ArgumentException("Only series with the same start, interval and length can be added.", nameof(other));
        }

        var sum = new long[Count];
        for (var i = 0; i < sum.Length; i++)
        {
            sum[i] = microKwh[i] + other.microKwh[i];
        }

        return new(Start, Interval, sum);
    }

    private static long Sum(long[] units)
    {
        long sum = 0;
        foreach (var unit in units)
        {
            sum += unit;
        }

        return sum;
    }

    private static void Check(Instant start, Duration interval, int count)
    {
        if (start != Instant.FromUnixTimeSeconds(start.ToUnixTimeSeconds()))
        {
            throw new ArgumentOutOfRangeException(nameof(start), start, "A metered series must start on a whole second.");
        }

        if (interval < Duration.FromMinutes(1) || interval > Duration.FromDays(1) || interval.BclCompatibleTicks % NodaConstants.TicksPerMinute != 0)
        {
            throw new ArgumentOutOfRangeException(nameof(interval), interval, "A metering interval must be 1 to 1440 whole minutes.");
        }

        ArgumentOutOfRangeException.ThrowIfZero(count);
        if (start < Earliest || start + (interval * count) > Latest)
        {
            throw new ArgumentOutOfRangeException(nameof(start), start, "A metered series must lie between the years 1900 and 2200.");
        }
    }
}
