using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// The limits that the class states: whole seconds, 1 to 1440 whole minutes, 0 to 1,000,000 kWh, 1900 to 2200.
public class MeteredSeriesTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);

    [Fact]
    public void Series_AtItsLimits_IsMade()
    {
        var series = MeteredSeries.FromKilowattHours(MeteredSeries.Earliest, Duration.FromMinutes(1), [0, MeteredSeries.LargestKilowattHours]);

        Assert.Equal([0, 1_000_000_000_000], series.MicroKilowattHours.ToArray());
        Assert.Equal((2, 1_000_000m), (series.Count, series.TotalKilowattHours));
        Assert.Equal(MeteredSeries.Latest, MeteredSeries.FromKilowattHours(MeteredSeries.Latest - Duration.FromDays(2), Duration.FromDays(1), [1, 2]).End);
        Assert.Equal((Instant.FromUtc(1900, 1, 1, 0, 0), Instant.FromUtc(2200, 1, 1, 0, 0)), (MeteredSeries.Earliest, MeteredSeries.Latest));
    }

    [Theory]
    [InlineData(0, 3600, 0, "count")]
    [InlineData(0.5, 3600, 1, "A metered series must start on a whole second.")]
    [InlineData(0, 59, 1, "A metering interval must be 1 to 1440 whole minutes.")]
    [InlineData(0, 90, 1, "A metering interval must be 1 to 1440 whole minutes.")]
    [InlineData(0, 86460, 1, "A metering interval must be 1 to 1440 whole minutes.")]
    [InlineData(0, -60, 1, "A metering interval must be 1 to 1440 whole minutes.")]
    [InlineData(-3976214401.0, 3600, 1, "A metered series must lie between the years 1900 and 2200.")]
    [InlineData(5490720000.0, 86400, 3, "A metered series must lie between the years 1900 and 2200.")]
    public void Series_BeyondALimit_IsRefusedWithTheRule(double startSeconds, double intervalSeconds, int count, string message)
    {
        var exception = Assert.Throws<ArgumentOutOfRangeException>(
            () => MeteredSeries.FromKilowattHours(Start + Duration.FromSeconds(startSeconds), Duration.FromSeconds(intervalSeconds), new double[count]));
        Assert.Contains(message, exception.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-0.0000001)]
    [InlineData(1_000_000.0001)]
    [InlineData(double.NaN)]
    public void Series_ImpossibleEnergy_NamesTheInterval(double kwh)
    {
        var exception = Assert.Throws<ArgumentOutOfRangeException>(() => MeteredSeries.FromKilowattHours(Start, Duration.FromHours(1), [1, kwh]));
        Assert.Contains("The energy of interval 1 must be from 0 to 1000000 kWh.", exception.Message, StringComparison.Ordinal);
    }

    // "Rounded once (half away from zero)": 0.5 and 1.5 millionths.
    [Fact]
    public void Energy_HalfAMillionth_IsRoundedUp() =>
        Assert.Equal([1, 2, 0], MeteredSeries.FromKilowattHours(Start, Duration.FromHours(1), [0.5e-6, 1.5e-6, 0.49e-6]).MicroKilowattHours.ToArray());

    [Theory]
    [InlineData(0, 4, 0, 4)]
    [InlineData(-9, 99, 0, 4)]
    [InlineData(1, 3, 1, 3)]
    [InlineData(0.5, 2.5, 1, 3)]
    [InlineData(3.5, 9, 4, 4)]
    [InlineData(2, 2, 2, 2)]
    public void Between_TwoInstants_HoldsTheIntervalsThatBeginThere(double from, double until, int first, int end)
    {
        var series = MeteredSeries.FromKilowattHours(Start, Duration.FromHours(1), [1, 2, 3, 4]);
        MeteredSeries Cut() => series.Between(Start + Duration.FromHours(from), Start + Duration.FromHours(until));

        if (first == end)
        {
            Assert.Throws<ArgumentOutOfRangeException>(Cut);
            return;
        }

        Assert.Equal(Start + Duration.FromHours(first), Cut().Start);
        Assert.Equal(Enumerable.Range(first + 1, end - first).Select(e => e * 1_000_000L), Cut().MicroKilowattHours.ToArray());
    }

    [Fact]
    public void Plus_AnotherSeries_AddsIntervalByInterval()
    {
        var one = MeteredSeries.FromKilowattHours(Start, Duration.FromHours(1), [1, 2]);

        Assert.Equal([4_000_000, 6_000_000], one.Plus(MeteredSeries.FromKilowattHours(Start, Duration.FromHours(1), [3, 4])).MicroKilowattHours.ToArray());
        foreach (var other in new[]
        {
            MeteredSeries.FromKilowattHours(Start + Duration.FromHours(1), Duration.FromHours(1), [3, 4]),
            MeteredSeries.FromKilowattHours(Start, Duration.FromMinutes(30), [3, 4]),
            MeteredSeries.FromKilowattHours(Start, Duration.FromHours(1), [3, 4, 5]),
        })
        {
            Assert.Contains("the same start, interval and length", Assert.Throws<ArgumentException>(() => one.Plus(other)).Message, StringComparison.Ordinal);
        }
    }

    // What a later baseline may need: the last hours of this series, and of the one before where that ends at its start with the same interval.
    [Theory]
    [InlineData(0, 1, 2, "3 4")]
    [InlineData(0, 1, 4, "1 2 3 4")]
    [InlineData(0, 1, 5, "8 1 2 3 4")]
    [InlineData(0, 1, 6, "7 8 1 2 3 4")]
    [InlineData(0, 1, 60, "7 8 1 2 3 4")]
    [InlineData(-1, 1, 6, "1 2 3 4")]
    [InlineData(0, 0.5, 6, "1 2 3 4")]
    public void Recent_Hours_ContinueTheSeriesBefore(double endsAt, double interval, double hours, string expected)
    {
        var series = MeteredSeries.FromKilowattHours(Start, Duration.FromHours(1), [1, 2, 3, 4]);
        var before = MeteredSeries.FromKilowattHours(Start + Duration.FromHours(endsAt - (2 * interval)), Duration.FromHours(interval), [7, 8]);

        var recent = series.Recent(before, Duration.FromHours(hours));
        Assert.Equal(expected, string.Join(' ', recent.MicroKilowattHours.ToArray().Select(e => e / 1_000_000)));
        Assert.Equal(series.End, recent.End);
    }

    [Fact]
    public void Recent_NothingBefore_IsTheSeriesAlone()
    {
        var series = MeteredSeries.FromKilowattHours(Start, Duration.FromHours(1), [1, 2]);

        Assert.Same(series, series.Recent(null, Duration.FromHours(9)));
    }
}
