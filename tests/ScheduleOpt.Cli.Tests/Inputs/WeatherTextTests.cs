using ScheduleOpt.Cli.Inputs;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Interchange.Weather;

namespace ScheduleOpt.Cli.Tests.Inputs;

public sealed class WeatherTextTests
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Csv_ReadAgain_IsTheSameYear(bool isTypical)
    {
        var year = new WeatherYear(Enumerable.Range(0, WeatherYear.Hours).Select(h => (h % 97) - 40.5), "A station", isTypical);

        var again = WeatherCsv.Read(WeatherText.Csv(year));

        Assert.Empty(again.Faults);
        Assert.Equal(year.Celsius, again.Value.Celsius);
        Assert.Equal(isTypical, again.Value.IsTypical);
        Assert.Contains("A station", again.Value.Source, StringComparison.Ordinal);
    }
}
