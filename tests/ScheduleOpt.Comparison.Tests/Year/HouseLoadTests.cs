using NodaTime;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Comparison.Tests.Year;

public sealed class HouseLoadTests
{
    private static readonly double[] Counting = [.. Enumerable.Range(0, WeatherYear.Hours).Select(h => (double)h)];

    [Theory]
    [InlineData("America/Chicago")]
    [InlineData("Australia/Sydney")]
    public void On_CommonYear_KeepsTheAnnualEnergy(string zone)
    {
        var values = HouseLoad.Hourly(Counting).On(Span(2026, zone));

        Assert.Equal(35040, values.Length);
        Assert.Equal(Counting.Sum(), values.Sum(), 1e-3);
    }

    [Fact]
    public void On_SummerTime_TheHoursAreStandardTime()
    {
        // 1 July 2026 00:00 in Chicago is 05:00 UTC, 23:00 on 30 June in standard time: hour 181 * 24 - 1 of the year.
        var span = Span(2026, "America/Chicago");
        var index = (int)((Instant.FromUtc(2026, 7, 1, 5, 0) - span.Start) / Duration.FromMinutes(15));

        Assert.Equal(((181 * 24) - 1) / 4.0, HouseLoad.Hourly(Counting).On(span)[index]);
    }

    [Fact]
    public void On_LeapYear_RepeatsThe28thOfFebruary()
    {
        var values = HouseLoad.Hourly(Counting).On(Span(2028, "America/Chicago"));
        var day = 24 * 4;

        Assert.Equal(366 * day, values.Length);
        Assert.Equal(values[(58 * day)..(59 * day)], values[(59 * day)..(60 * day)]);
        Assert.Equal(59 * 24 / 4.0, values[60 * day]);
    }

    [Fact]
    public void On_DaylightTimeInJanuary_TheFirstHourIsTheYearsLast()
    {
        var values = HouseLoad.Hourly(Counting).On(Span(2026, "Australia/Sydney"));

        Assert.Equal(8759 / 4.0, values[0]);
        Assert.Equal(0, values[4]);
    }

    [Fact]
    public void Hourly_WrongNumberOrNegative_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => HouseLoad.Hourly(new double[8759]));
        Assert.Throws<ArgumentException>(() => HouseLoad.PerInterval([1, -1]));
        Assert.Throws<ArgumentException>(() => HouseLoad.PerInterval(new double[10]).On(Span(2026, "America/Chicago")));
    }

    private static YearSpan Span(int year, string zone) =>
        new(year, new HouseholdZone(DateTimeZoneProviders.Tzdb[zone]), Duration.FromMinutes(15));
}
