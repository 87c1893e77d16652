using CsCheck;
using ScheduleOpt.Interchange.Weather;

namespace ScheduleOpt.Interchange.Tests.Weather;

public sealed class MonthlyMeansTests
{
    private static readonly int[] Days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

    [Fact]
    public void ToWeatherYear_AnyMonths_KeepsEachMonthsMeanLowAndHigh() =>
        Gen.Select(Gen.Double[-40, 25].Array[12], Gen.Double[0, 25].Array[12]).Sample((lows, spans) =>
        {
            var highs = lows.Zip(spans, (low, span) => low + span).ToArray();
            var celsius = MonthlyMeans.ToWeatherYear(lows, highs).Value.Celsius;
            for (int month = 0, first = 0; month < 12; first += Days[month++])
            {
                var days = Enumerable.Range(first, Days[month]).ToArray();
                Assert.Equal(lows[month], days.Average(d => celsius[(d * 24) + MonthlyMeans.ColdestHour]), 1e-9);
                Assert.Equal(highs[month], days.Average(d => celsius[(d * 24) + MonthlyMeans.WarmestHour]), 1e-9);
            }
        });

    [Fact]
    public void ToWeatherYear_AllMonthsAlike_StaysBetweenLowAndHigh()
    {
        var celsius = MonthlyMeans.ToWeatherYear([.. Enumerable.Repeat(-5.0, 12)], [.. Enumerable.Repeat(5.0, 12)]).Value.Celsius;

        Assert.Equal((-5.0, 5.0), (celsius.Min(), celsius.Max()));
        Assert.Equal(0, celsius.Average(), 0.5);
    }

    [Fact]
    public void ToWeatherYear_AColdWinter_HasNoJumpBetweenHours()
    {
        double[] lows = [-20, -17, -9, 0, 7, 12, 15, 13, 8, 1, -8, -16];
        double[] highs = [-9, -6, 2, 13, 20, 25, 28, 27, 22, 14, 3, -6];
        var celsius = MonthlyMeans.ToWeatherYear(lows, highs).Value.Celsius;

        Assert.All(Enumerable.Range(0, 8760), h => Assert.InRange(Math.Abs(celsius[(h + 1) % 8760] - celsius[h]), 0, 3.5));
    }

    [Theory]
    [InlineData(11, -5, 5, "#/weather/monthly/low")]
    [InlineData(12, -61, 5, "#/weather/monthly/low/0")]
    [InlineData(12, double.NaN, 5, "#/weather/monthly/low/0")]
    [InlineData(12, 6, 5, "#/weather/monthly/high/0")]
    public void ToWeatherYear_Unfit_IsRefusedWithAPointer(int count, double low, double high, string pointer) =>
        Assert.Equal(pointer, MonthlyMeans.ToWeatherYear([.. Enumerable.Repeat(low, count)], [.. Enumerable.Repeat(high, 12)]).Faults[0].Pointer);
}
