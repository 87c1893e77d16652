using NodaTime;
using ScheduleOpt.Interchange.Meters;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Tests.Meters;

public class MeteredHouseLoadTests
{
    private static readonly Instant NewYear = Instant.FromUtc(2027, 1, 1, 5, 0);

    private static MeteredSeries Series(Instant start, int hours, Func<int, double> kwh, int perHour = 1) => MeteredSeries.FromKilowattHours(
        start, Duration.FromMinutes(60 / perHour), Enumerable.Range(0, hours * perHour).Select(i => kwh(i / perHour) / perHour).ToArray());

    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    public void AYear_IsItself_InStandardTime(int perHour)
    {
        var hourly = MeteredHouseLoad.Hourly(Series(NewYear, 8760, h => h / 1000.0, perHour), Samples.Eastern).Value;

        Assert.Equal(8760, hourly.Length);
        Assert.All(Enumerable.Range(0, 8760), h => Assert.Equal(h / 1000.0, hourly[h], 5));
    }

    [Fact]
    public void CoastalYear_KeepsItsEnergy()
    {
        using var file = Samples.Open("coastal_multi_family_2011.xml.gz");
        var house = MeterFile.Read(file, Samples.In(Samples.Pacific)).Value.House!;

        Assert.Equal((double)house.Series.TotalKilowattHours, MeteredHouseLoad.Hourly(house.Series, Samples.Pacific).Value.Sum(), 6);
    }

    [Fact]
    public void TwoYears_AreAveraged_AndALeapDayIsLeftOut()
    {
        // 2027 and 2028: 1 kWh in the one, 3 in the other; 29 February 2028 at 50.
        var leapDay = (int)(Instant.FromUtc(2028, 2, 29, 5, 0) - NewYear).TotalHours;
        var series = Series(NewYear, 8760 + 8784, h => h < 8760 ? 1 : h >= leapDay && h < leapDay + 24 ? 50 : 3);

        Assert.All(MeteredHouseLoad.Hourly(series, Samples.Eastern).Value, h => Assert.Equal(2, h, 9));
    }

    [Fact]
    public void ElevenMonths_AreFilledFromTheSameHourOfNearWeeks()
    {
        var hourly = MeteredHouseLoad.Hourly(Series(NewYear, 8760 - (20 * 24), h => h % 24), Samples.Eastern).Value;

        Assert.All(Enumerable.Range(0, 8760), h => Assert.Equal(h % 24, hourly[h], 9));
    }

    [Fact]
    public void HalfAYear_IsRefused() =>
        Assert.Contains("90 %", MeteredHouseLoad.Hourly(Series(NewYear, 4000, _ => 1), Samples.Eastern).Faults[0].Rule, StringComparison.Ordinal);
}
