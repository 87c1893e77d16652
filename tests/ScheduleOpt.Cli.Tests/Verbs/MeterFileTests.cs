using System.Globalization;
using System.Text;
using System.Text.Json;

namespace ScheduleOpt.Cli.Tests.Verbs;

/// <summary>Meter files as utilities give them, at the prompt.</summary>
public sealed class MeterFileTests
{
    [Fact]
    public async Task Bill_OfAGreenButtonDay_IsWorkedByHand()
    {
        // 24 readings of 500 Wh: 12 kWh at 0.129: 1.548, to the cent 1.55.
        using var file = new TemporaryFile("readings.xml", GreenButton(1767247200, 24, 500));
        var run = await CommandRun.Of("bill", "--rate-plan", "example-power-standard", "--meter-file", file.Path, "--json");
        Assert.Equal(0, run.Code);
        using var json = JsonDocument.Parse(run.Out);
        var energy = json.RootElement.GetProperty("periods")[0].GetProperty("lines").EnumerateArray()
            .First(l => l.GetProperty("part").GetString() == "energyCharge");
        Assert.Equal("12", energy.GetProperty("quantity").GetString());
        Assert.Equal("1.55", energy.GetProperty("amount").GetString());
    }

    [Fact]
    public async Task Bill_OfATableWithAGap_SaysHowItWasFilledOrRefusesIt()
    {
        using var file = new TemporaryFile("readings.csv", "Date,Start,Usage (kWh)\n2026-01-05,00:00,1.0\n2026-01-05,01:00,1.0\n2026-01-05,04:00,1.0\n");
        var run = await CommandRun.Of("bill", "--rate-plan", "example-power-standard", "--meter-file", file.Path);
        Assert.Equal(1, run.Code);
        Assert.Contains("error: ", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_WithAYearOfTheHouse_BillsWhatWasMetered()
    {
        // 8,760 hours of 800 Wh from 1 January 2025, 00:00 in Chicago: 7,008 kWh.
        using var file = new TemporaryFile("year.xml", GreenButton(1735711200, 8760, 800));
        var run = await CommandRun.Of(
            "compare", "--demo", "--rate-plan", "example-power-standard", "--house-meter-file", file.Path, "--json");
        Assert.Equal(0, run.Code);
        using var json = JsonDocument.Parse(run.Out);
        var without = json.RootElement.GetProperty("cells")[0].GetProperty("billWithoutCar").GetProperty("total").GetProperty("amount").GetString()!;

        // The same house as a plain series.
        using var series = new TemporaryFile("plain.csv", "kwh\n" + string.Concat(Enumerable.Repeat("0.8\n", 8760)));
        var bill = await CommandRun.Of(
            "bill", "--rate-plan", "example-power-standard", "--series", series.Path, "--start", "2026-01-01T00:00", "--interval-minutes", "60", "--json");
        using var plain = JsonDocument.Parse(bill.Out);
        Assert.Equal(plain.RootElement.GetProperty("total").GetProperty("amount").GetString(), without);
    }

    private static string GreenButton(long start, int hours, int wattHours)
    {
        var readings = new StringBuilder();
        for (var i = 0; i < hours; i++)
        {
            readings.Append(
                CultureInfo.InvariantCulture,
                $"<IntervalReading><timePeriod><duration>3600</duration><start>{start + (3600L * i)}</start></timePeriod><value>{wattHours}</value></IntervalReading>");
        }

        return "<feed xmlns=\"http://www.w3.org/2005/Atom\">"
            + "<entry><link rel=\"self\" href=\"R/1\"/><content><ReadingType xmlns=\"http://naesb.org/espi\"><accumulationBehaviour>4</accumulationBehaviour><commodity>1</commodity>"
            + "<flowDirection>1</flowDirection><intervalLength>3600</intervalLength><kind>12</kind><powerOfTenMultiplier>0</powerOfTenMultiplier><uom>72</uom></ReadingType></content></entry>"
            + "<entry><link rel=\"self\" href=\"B/1\"/><content><IntervalBlock xmlns=\"http://naesb.org/espi\">"
            + $"<interval><duration>{3600L * hours}</duration><start>{start}</start></interval>{readings}</IntervalBlock></content></entry></feed>";
    }
}
