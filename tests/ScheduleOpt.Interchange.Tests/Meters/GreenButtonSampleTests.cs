using System.Globalization;
using System.Text.Json;
using NodaTime;
using ScheduleOpt.Interchange.Meters;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Interchange.Tests.Meters;

// Whole files of others, and what another reader of XML makes of them. Sources: Data/NOTICE.
public class GreenButtonSampleTests
{
    private const string Script = """
        import json, sys, xml.etree.ElementTree as tree
        espi = "{http://naesb.org/espi}"
        root = tree.fromstring(sys.stdin.buffer.read())
        readings = {}
        for reading in root.iter(espi + "IntervalReading"):
            period = reading.find(espi + "timePeriod")
            key = (int(period.find(espi + "start").text), int(period.find(espi + "duration").text))
            readings[key] = int(reading.find(espi + "value").text)
        cost = sum(int(e.text) for e in root.iter(espi + "cost"))
        print(json.dumps({"count": len(readings), "wh": sum(readings.values()), "cost": cost,
                          "series": [v for _, v in sorted(readings.items())], "start": min(readings)[0]}))
        """;

    [Fact]
    public void CoastalYear_InItsZone_Is4425KilowattHours()
    {
        using var file = Samples.Open("coastal_multi_family_2011.xml.gz");
        var readings = MeterFile.Read(file, Samples.In(Samples.Pacific)).Value;

        var house = Assert.Single(readings.Channels);
        Assert.Same(house, readings.House);
        Assert.Equal(4425.3m, decimal.Round(house.Series.TotalKilowattHours, 1));
        Assert.Equal(8760, house.Series.Count);
        Assert.Equal(Instant.FromUtc(2011, 1, 1, 8, 0), house.Series.Start);
        Assert.Equal(Instant.FromUtc(2012, 1, 1, 8, 0), house.Series.End);
        Assert.True(house.Report.IsEnoughForAYear);
        Assert.Empty(readings.Warnings);

        // The utility's own summary of the last period, 30 days from 1 November.
        var summary = Assert.Single(readings.Summaries);
        Assert.Equal(768.032m, summary.Kwh);
        Assert.Equal(Duration.FromDays(30), summary.End - summary.Start);
    }

    [Fact]
    public void CoastalYear_InAnotherZone_IsWarnedAbout()
    {
        using var file = Samples.Open("coastal_multi_family_2011.xml.gz");
        var readings = MeterFile.Read(file, Samples.In(Samples.Zone("America/Phoenix"))).Value;

        Assert.Contains(readings.Warnings, w => w.Contains("America/Phoenix", StringComparison.Ordinal));
    }

    [Fact]
    public void TwentyFiveHours_OneDayInAutumn_Are2423WattHoursTimesTen()
    {
        // usage_25h.xml: 24.23 kWh in the 25 hours of 1 November 2026, one reading estimated.
        var readings = MeterFile.Read(Samples.Text("usage_25h.xml"), Samples.In(Samples.Eastern)).Value;

        var series = readings.House!.Series;
        Assert.Equal(24.23m, series.TotalKilowattHours);
        Assert.Equal(25, series.Count);
        Assert.Equal(new LocalDate(2026, 11, 1).AtStartOfDayInZone(Samples.Eastern).ToInstant(), series.Start);
        Assert.Equal(new LocalDate(2026, 11, 2).AtStartOfDayInZone(Samples.Eastern).ToInstant(), series.End);
        Assert.Equal(1 / 25.0, readings.House.Report.EstimatedShare, 12);
        Assert.Equal(24 / 25.0, readings.House.Report.QualityShares["validated"], 12);
        Assert.Empty(readings.Warnings);
    }

    [Fact]
    public void AllianceTestData_Quarters_HaveCostAndQuality()
    {
        var readings = MeterFile.Read(Samples.Text("alliance_test_usage.xml"), Samples.In(Samples.Eastern)).Value;

        var house = readings.House!;
        Assert.Equal(Duration.FromMinutes(15), house.Series.Interval);
        Assert.Equal(1, house.Report.QualityShares["estimated"] * house.Report.Readings, 9);
        Assert.Equal(1, house.Report.QualityShares["edited"] * house.Report.Readings, 9);
        Assert.Equal(152.52m, Assert.Single(readings.Summaries).Amount);
        Assert.Equal("USD", readings.Summaries[0].Currency);
    }

    [Theory]
    [InlineData("coastal_multi_family_2011.xml.gz", "America/Los_Angeles")]
    [InlineData("alliance_test_usage.xml", "America/New_York")]
    [InlineData("usage_25h.xml", "America/New_York")]
    public void Sample_ReadingByReading_IsWhatAnotherReaderOfXmlFinds(string name, string zone)
    {
        var python = PythonScript.InterpreterWith("xml.etree.ElementTree");
        Assert.SkipWhen(python is null, "Python is not installed here: nothing to compare with.");

        var text = Samples.Text(name);
        using var theirs = JsonDocument.Parse(PythonScript.Run(python!, Script, text));
        var house = MeterFile.Read(text, Samples.In(Samples.Zone(zone))).Value.House!;

        Assert.Equal(theirs.RootElement.GetProperty("count").GetInt32(), house.Report.Readings);
        Assert.Equal(theirs.RootElement.GetProperty("wh").GetInt64() / 1000m, house.Series.TotalKilowattHours);
        Assert.Equal(theirs.RootElement.GetProperty("start").GetInt64(), house.Series.Start.ToUnixTimeSeconds());
        Assert.Equal(theirs.RootElement.GetProperty("series").EnumerateArray().Select(v => v.GetInt64() * 1000), house.Series.MicroKilowattHours.ToArray());
        var cost = theirs.RootElement.GetProperty("cost").GetInt64();
        Assert.Equal(cost.ToString(CultureInfo.InvariantCulture), ((house.Report.StatedCost ?? 0) * 100_000).ToString("0", CultureInfo.InvariantCulture));
    }
}
