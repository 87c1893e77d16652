using System.Globalization;
using System.Text;
using NodaTime;
using ScheduleOpt.Interchange.Meters;

namespace ScheduleOpt.Interchange.Tests.Meters;

public sealed class MeteredDemandTests
{
    private static readonly DateTimeZone Zone = DateTimeZone.Utc;

    [Fact]
    public void QuarterHours_OfAFile_AreItsPowersAndGapsStayGaps()
    {
        // 0.5 kWh in a quarter of an hour are 2 kW; the third reading is missing.
        var demand = MeteredDemand.Read("Time,kWh\n2026-01-01T00:00Z,0.5\n2026-01-01T00:15Z,1.25\n2026-01-01T00:45Z,0.25\n2026-01-01T01:00Z,0.25\n", Zone).Value;
        Assert.Equal(Duration.FromMinutes(15), demand.Interval);
        Assert.Equal([2.0, 5.0, null, 1.0, 1.0], demand.AverageKw);
        Assert.False(demand.ShowsExport);
    }

    [Fact]
    public void LongerReadings_AmongShortOnes_AreRefusedBecauseTheyHideAPeak()
    {
        var file = Espi.File(Espi.Type(length: 900), Espi.Block(Readings((0, 900, 100), (900, 3600, 400), (4500, 900, 100)), Espi.Start, 5400));
        var fault = Assert.Single(MeteredDemand.Read(file, Zone).Faults);
        Assert.Contains("hides a peak", fault.Rule, StringComparison.Ordinal);
    }

    private static string Readings(params (int Start, int Seconds, int Value)[] readings)
    {
        var text = new StringBuilder();
        foreach (var (start, seconds, value) in readings)
        {
            text.Append(CultureInfo.InvariantCulture,
                $"<IntervalReading><timePeriod><duration>{seconds}</duration><start>{Espi.Start + start}</start></timePeriod><value>{value}</value></IntervalReading>");
        }

        return text.ToString();
    }
}
