using System.Globalization;
using ScheduleOpt.Interchange.Weather;

namespace ScheduleOpt.Interchange.Tests.Weather;

public sealed class EpwFileTests
{
    private static readonly int[] Days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

    [Fact]
    public void Read_HourEndingRows_AreTakenAsTheHourBefore()
    {
        var year = EpwFile.Read(Document(leap: false)).Value;

        // Each row carries month + day / 100 + hour that ends / 10,000 as its temperature.
        Assert.Equal(1.0101, year.Celsius[0]);
        Assert.Equal(1.0124, year.Celsius[23]);
        Assert.Equal(12.3124, year.Celsius[^1]);
        Assert.Equal("Invented, ND, USA, TEST, 000000", year.Source);
        Assert.True(year.IsTypical);
    }

    [Fact]
    public void Read_LeapYear_IsTheSameWithoutItsLeapDay() =>
        Assert.Equal(EpwFile.Read(Document(leap: false)).Value.Celsius, EpwFile.Read(Document(leap: true)).Value.Celsius);

    [Fact]
    public void Read_MissingTemperature_IsNamedWithItsLine()
    {
        // EnergyPlus data dictionary: 99.9 is missing.
        var fault = Assert.Single(EpwFile.Read(Document(false).Replace(",1.0102,", ",99.9,", StringComparison.Ordinal)).Faults);

        Assert.Equal(10, fault.Line);
        Assert.Contains("99.9", fault.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_HourZero_IsRefused() =>
        Assert.Contains("1 to 24", EpwFile.Read(Document(false).Replace("2001,1,1,1,60", "2001,1,1,0,60", StringComparison.Ordinal)).Faults[0].Rule, StringComparison.Ordinal);

    [Fact]
    public void Read_RowsMissing_IsRefused()
    {
        var rows = Document(leap: false).Split('\n');

        Assert.Contains("8,760 rows", EpwFile.Read(string.Join('\n', rows[..^30])).Faults[0].Rule, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("month,day,hour,temperature_c\n")]
    [InlineData("LOCATION,x\n")]
    public void Read_NoSuchFile_IsRefused(string text) => Assert.False(EpwFile.Read(text).IsRead);

    private static string Document(bool leap)
    {
        var text = new System.Text.StringBuilder("LOCATION,Invented,ND,USA,TEST,000000,46.9,-96.8,-6.0,274.0\n");
        for (var header = 2; header <= 8; header++)
        {
            text.Append(CultureInfo.InvariantCulture, $"HEADER {header}\n");
        }

        for (var month = 1; month <= 12; month++)
        {
            for (var day = 1; day <= Days[month - 1] + (leap && month == 2 ? 1 : 0); day++)
            {
                for (var hour = 1; hour <= 24; hour++)
                {
                    var temperature = (month + (day / 100m) + (hour / 10_000m)).ToString("0.0000", CultureInfo.InvariantCulture);
                    text.Append(CultureInfo.InvariantCulture, $"2001,{month},{day},{hour},60,?9?9?9,{temperature},-5.0,70,99000\n");
                }
            }
        }

        return text.ToString();
    }
}
