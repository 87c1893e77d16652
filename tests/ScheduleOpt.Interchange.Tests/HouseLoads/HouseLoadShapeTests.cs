using NodaTime;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Interchange.HouseLoads;

namespace ScheduleOpt.Interchange.Tests.HouseLoads;

public sealed class HouseLoadShapeTests
{
    [Fact]
    public void ScaleMonths_EachMonth_HasItsEnergyOnTheFormOfTheShape()
    {
        double[] months = [900, 800, 750, 600, 500, 650, 0, 820, 640, 560, 700, 880];
        var load = HouseLoadShape.ScaleMonths(months);
        var shape = HouseLoadShape.Scale(1);
        Assert.Equal(HouseLoadShape.Hours, load.Length);
        var first = 0;
        for (var m = 0; m < 12; m++)
        {
            var hours = 24 * DateTime.DaysInMonth(2001, m + 1);
            Assert.Equal(months[m], load[first..(first + hours)].Sum(), 9);

            // Within a month hours stand to one another as in the shape.
            Assert.Equal(shape[first] * load[first + 18], shape[first + 18] * load[first], 12);
            first += hours;
        }
    }

    [Theory]
    [InlineData(11, 1)]
    [InlineData(12, -1)]
    [InlineData(12, double.NaN)]
    public void ScaleMonths_NotTwelveOrNotEnergy_IsRefused(int months, double kwh) =>
        Assert.Throws<ArgumentException>(() => HouseLoadShape.ScaleMonths([.. Enumerable.Repeat(kwh, months)]));

    private static readonly HouseholdZone Chicago = new(DateTimeZoneProviders.Tzdb["America/Chicago"]);
    private static readonly double[] HourOfYear = [.. Enumerable.Range(0, 8760).Select(h => (double)h)];

    [Fact]
    public void Scale_ToAYearsEnergy_SumsToIt()
    {
        var hourly = HouseLoadShape.Scale(9_000);

        Assert.Equal(8760, hourly.Length);
        Assert.Equal(9_000, hourly.Sum(), 1e-6);
        Assert.All(hourly, kwh => Assert.True(kwh > 0));
    }

    [Fact]
    public void Scale_ToTheSourcesOwnEnergy_GivesTheSourcesValues()
    {
        // NREL/ssc load_residential_hourly.csv: first value 0.40864765644073486 kW, 6,020 kWh in all (rounded).
        var hourly = HouseLoadShape.Scale(6_020);

        Assert.Equal(0.40864765644073486, hourly[0], 1e-4);
        Assert.Equal(0.53306609392166138, hourly[^1], 1e-4);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Scale_NoEnergy_IsRefused(double annualKwh) => Assert.Throws<ArgumentOutOfRangeException>(() => HouseLoadShape.Scale(annualKwh));

    [Fact]
    public void OnYear_CommonYear_CountsInStandardTime()
    {
        var year = HouseLoadShape.OnYear(HourOfYear, 2026, Chicago);

        Assert.Equal(Instant.FromUtc(2026, 1, 1, 6, 0), year.Start);
        Assert.Equal(HourOfYear, year.HourlyKwh);
    }

    [Fact]
    public void OnYear_LeapYear_Repeats28February()
    {
        var year = HouseLoadShape.OnYear(HourOfYear, 2028, Chicago);
        const int firstOf29 = (31 + 28) * 24;

        Assert.Equal(8784, year.HourlyKwh.Count);
        Assert.Equal(year.HourlyKwh.Skip(firstOf29 - 24).Take(24), year.HourlyKwh.Skip(firstOf29).Take(24));
        Assert.Equal(8759, year.HourlyKwh[^1]);
    }

    [Fact]
    public void OnYear_SouthernSummerTime_BeginsWithTheLastStandardHourOfTheYearBefore()
    {
        var year = HouseLoadShape.OnYear(HourOfYear, 2026, new HouseholdZone(DateTimeZoneProviders.Tzdb["Pacific/Auckland"]));

        Assert.Equal([8759.0, 0, 1], year.HourlyKwh.Take(3));
        Assert.Equal(8760, year.HourlyKwh.Count);
    }

    [Fact]
    public void OnYear_NotAYearOfHours_IsRefused() => Assert.Throws<ArgumentException>(() => HouseLoadShape.OnYear([1, 2, 3], 2026, Chicago));

    [Fact]
    public void Notice_OfTheShape_CarriesTheLicence()
    {
        using var reader = new StreamReader(typeof(HouseLoadShape).Assembly.GetManifestResourceStream("HouseLoads/NOTICE")!);

        Assert.Contains("BSD 3-Clause License", reader.ReadToEnd(), StringComparison.Ordinal);
    }
}
