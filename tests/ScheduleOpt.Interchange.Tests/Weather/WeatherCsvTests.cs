using System.Globalization;
using ScheduleOpt.Interchange.Demo;
using ScheduleOpt.Interchange.Weather;

namespace ScheduleOpt.Interchange.Tests.Weather;

public sealed class WeatherCsvTests
{
    private static readonly string[] Good = [.. DemoHousehold.WeatherCsvText.Split('\n', StringSplitOptions.RemoveEmptyEntries)];

    [Fact]
    public void Read_PublishedYear_KeepsItsFigures()
    {
        // NREL TMY2, Fargo ND: -35.0 to 36.7 degC, January mean -13.2, 433 hours at or below -20.
        var year = WeatherCsv.Read(string.Join('\n', Good)).Value;

        Assert.Equal((-35.0, 36.7), (year.Celsius.Min(), year.Celsius.Max()));
        Assert.Equal(-13.2, year.Celsius.Take(31 * 24).Average(), 0.05);
        Assert.Equal(433, year.Celsius.Count(c => c <= -20));
        Assert.True(year.IsTypical);
    }

    [Fact]
    public void Read_RowsInAnotherOrder_IsTheSameYear() =>
        Assert.Equal(
            DemoHousehold.WeatherYear.Celsius,
            WeatherCsv.Read(string.Join("\r\n", Good.Take(3).Concat(Good.Skip(3).Reverse()))).Value.Celsius);

    [Fact]
    public void Read_Fahrenheit_IsConverted()
    {
        var rows = DemoHousehold.WeatherYear.Celsius.Select((c, i) => Good[i + 3][..Good[i + 3].LastIndexOf(',')] + "," + ((c * 1.8) + 32).ToString(CultureInfo.InvariantCulture));
        var year = WeatherCsv.Read("month,day,hour,temperature_f\n" + string.Join('\n', rows)).Value;

        Assert.All(year.Celsius.Zip(DemoHousehold.WeatherYear.Celsius), pair => Assert.Equal(pair.Second, pair.First, 9));
        Assert.Equal("not stated", year.Source);
    }

    [Fact]
    public void Read_WithALeapDay_LeavesItOut() =>
        Assert.Equal(
            DemoHousehold.WeatherYear.Celsius,
            WeatherCsv.Read(string.Join('\n', Good) + "\n" + string.Join('\n', Enumerable.Range(0, 24).Select(h => $"2,29,{h},0"))).Value.Celsius);

    [Theory]
    [InlineData("1,1,0,-60.1", "60 degC")]
    [InlineData("1,1,0,61", "60 degC")]
    [InlineData("1,1,0,NaN", "plain numbers")]
    [InlineData("1,1,0", "plain numbers")]
    [InlineData("1,1,0,1,2", "plain numbers")]
    [InlineData("13,1,0,1", "Month is 1 to 12")]
    [InlineData("2,30,0,1", "Month is 1 to 12")]
    [InlineData("1,1,24,1", "Month is 1 to 12")]
    [InlineData("1,1,1,1", "stands once")]
    public void Read_OneBadRow_IsNamedWithItsLine(string row, string rule)
    {
        var lines = (string[])Good.Clone();
        lines[3] = row;

        var faults = WeatherCsv.Read(string.Join('\n', lines)).Faults;

        // A repeated hour is noticed where it stands the second time.
        Assert.Contains(faults, f => f.Rule.Contains(rule, StringComparison.Ordinal) && f.Line == (row == "1,1,1,1" ? 5 : 4));
        Assert.Equal("#/weather/csv", faults[0].Pointer);
    }

    [Fact]
    public void Read_HoursMissing_AreNamed()
    {
        var fault = Assert.Single(WeatherCsv.Read(string.Join('\n', Good.Where((_, i) => i is < 30 or > 32))).Faults);

        Assert.Equal("missing: month 1 day 2 hour 3 to month 1 day 2 hour 5", fault.Value);
    }

    [Theory]
    [InlineData("")]
    [InlineData("# only a comment")]
    [InlineData("month,day,hour,temp\n1,1,0,5")]
    [InlineData("month,day,hour,temperature_c")]
    public void Read_WithoutHeaderOrRows_IsRefused(string text) => Assert.False(WeatherCsv.Read(text).IsRead);

    [Fact]
    public void Read_EveryRowBad_ListsTwentyAndCountsTheRest()
    {
        var faults = WeatherCsv.Read("month,day,hour,temperature_c\n" + string.Concat(Enumerable.Repeat("x\n", 1000))).Faults;

        Assert.Equal(21, faults.Count);
        Assert.Equal("980", faults[^1].Value);
    }
}
