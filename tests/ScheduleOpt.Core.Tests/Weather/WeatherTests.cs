using NodaTime;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Core.Tests.Weather;

public sealed class WeatherTests
{
    private static readonly Offset Central = Offset.FromHours(-6);
    private static readonly WeatherYear HourOfYear = new(Enumerable.Range(0, 8760).Select(h => (double)h), "each hour its number", isTypical: false);

    [Fact]
    public void OnYear_CommonYear_IsTheYearItself()
    {
        var forecast = HourOfYear.OnYear(2026, Central);

        Assert.Equal(Instant.FromUtc(2026, 1, 1, 6, 0), forecast.Start);
        Assert.Equal(Instant.FromUtc(2027, 1, 1, 6, 0), forecast.End);
        Assert.Equal(HourOfYear.Celsius, forecast.Celsius);
    }

    [Fact]
    public void OnYear_LeapYear_29FebruaryRepeatsThe28th()
    {
        var forecast = HourOfYear.OnYear(2028, Central);
        double At(int month, int day, int hour) => forecast.At(new LocalDateTime(2028, month, day, hour, 30).WithOffset(Central).ToInstant());

        Assert.Equal(8784, forecast.Celsius.Count);
        Assert.Equal(At(2, 28, 13), At(2, 29, 13));
        Assert.Equal(((31 + 28) * 24) + 13, At(3, 1, 13));
        Assert.Equal(8759, At(12, 31, 23));
    }

    [Fact]
    public void WeatherYear_NotAYearOfNumbers_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => new WeatherYear(new double[8784], "x", false));
        Assert.Throws<ArgumentException>(() => new WeatherYear(Enumerable.Repeat(double.NaN, 8760), "x", false));
    }

    [Fact]
    public void Forecast_BeforeAndAfter_HoldsItsEnds()
    {
        var start = Instant.FromUtc(2026, 1, 14, 0, 0);
        var forecast = new TemperatureForecast(start, Duration.FromHours(1), [1, 2, 2, 3]);

        Assert.Equal([1.0, 1, 2, 3, 3], new[] { -5, 0, 1, 3, 99 }.Select(h => forecast.At(start + Duration.FromHours(h))));
        Assert.Equal(1, forecast.At(start + Duration.FromHours(1) - Duration.Epsilon));
        Assert.True(forecast.Covers(start, start + Duration.FromHours(4)));
        Assert.False(forecast.Covers(start, start + Duration.FromHours(5)));
    }

    [Fact]
    public void Forecast_OfOneHour_CoversThatHourAlone()
    {
        var start = Instant.FromUtc(2026, 1, 14, 0, 0);
        var forecast = new TemperatureForecast(start, Duration.FromHours(1), [1]);
        Assert.True(forecast.Covers(start, start + Duration.FromHours(1)));
        Assert.False(forecast.Covers(start, start + Duration.FromHours(2)));
        Assert.True(TemperatureForecast.Constant(Temperature.FromCelsius(5)).Covers(start, start + Duration.FromDays(9)));
    }

    [Fact]
    public void ChangesWithin_Span_AreOnlyWhereTheValueDiffers()
    {
        var start = Instant.FromUtc(2026, 1, 14, 0, 0);
        var forecast = new TemperatureForecast(start, Duration.FromHours(1), [1, 2, 2, 3, 4]);

        Assert.Equal([1.0, 3], forecast.ChangesWithin(start, start + Duration.FromHours(4)).Select(c => (c - start).TotalHours));
        Assert.Empty(forecast.ChangesWithin(start + Duration.FromHours(1), start + Duration.FromHours(3)));
        Assert.Empty(TemperatureForecast.Constant(Temperature.FromCelsius(5)).ChangesWithin(start, start + Duration.FromDays(9)));
    }
}
