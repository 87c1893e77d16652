using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using NodaTime;
using ScheduleOpt.Core.Homes.Panels;
using ScheduleOpt.Interchange.Tests.Reports;

namespace ScheduleOpt.Interchange.Tests.Requests;

/// <summary>A panel estimate from a file of meter readings (NEC 220.87).</summary>
public sealed class PanelMeterFileTests
{
    // By hand: a peak of 8 kW over a quarter hour counts 1.25 x 8 = 10 kVA; a unit of 40 A at 240 V is 9.6 kVA and counts 1.25 x 9.6 = 12 kVA: of 24 kVA of a 100 A
    // service 2 are left, of 48 kVA of one of 200 A 26.
    [Theory]
    [InlineData(100, 2.0)]
    [InlineData(200, 26.0)]
    public void File_OfThirtyOneDaysUnderConditions_GivesTheEstimate(int service, double left)
    {
        var request = Request(File(31, 15, 8), generation: false, service);
        request["panel"]!["metered"]!["shortRecord"] = JsonNode.Parse("""{"occupied":true,"highestLoadedLeg":true,"seasonalKva":0}""");
        var panel = ReportRequest.Run(request).Decided.SetUps[1].Panel!;
        Assert.Equal(PanelOutcome.RoomByThisEstimate, panel.Outcome);
        Assert.Equal((10.0, 12.0), (Math.Round(panel.HouseKva!.Value, 9), Math.Round(panel.ChargingKva!.Value, 9)));
        Assert.Equal(left, panel.LeftKva!.Value, 9);
    }

    [Fact]
    public void File_Hourly_CannotDecide()
    {
        var panel = ReportRequest.Run(Request(File(31, 60, 8), generation: false)).Decided.SetUps[1].Panel!;
        Assert.Equal(PanelOutcome.CannotDecide, panel.Outcome);
        Assert.Contains(panel.Reasons, r => r.Contains("60 minutes can't decide", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("generation", "Generation is behind the meter")]
    [InlineData("storage", "Storage is behind the meter")]
    [InlineData("peakLimiting", "Peaks are limited behind the meter")]
    public void Behind_TheMeter_IsRefusedWithTheReason(string what, string reason)
    {
        var request = Request(File(31, 15, 8), generation: false);
        request["panel"]!["metered"]![what] = true;
        var panel = ReportRequest.Run(request).Decided.SetUps[1].Panel!;
        Assert.Equal(PanelOutcome.CannotDecide, panel.Outcome);
        Assert.Contains(panel.Reasons, r => r.Contains(reason, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("nothing of the kind", "#/panel/metered/meterFile/text")]
    [InlineData("", "#/panel/metered/meterFile/text")]
    public void Text_ThatIsNoMeterFile_IsNamed(string text, string pointer) =>
        Assert.Contains(ReportRequest.Faults(Request(text, generation: false)), f => f.Pointer == pointer);

    [Fact]
    public void File_BesideIntervalMinutes_IsOneTooMany()
    {
        var request = Request(File(31, 15, 8), generation: false);
        request["panel"]!["metered"]!["intervalMinutes"] = 15;
        Assert.Equal("#/panel/metered/intervalMinutes", Assert.Single(ReportRequest.Faults(request)).Pointer);
    }

    // The file's intervals can't be told without the zone: the zone alone is at fault.
    [Fact]
    public void File_WithoutAZone_IsNotRead()
    {
        var request = Request(File(31, 15, 8), generation: false);
        request["timeZone"] = "America/Chicgo";
        Assert.Equal("#/timeZone", Assert.Single(ReportRequest.Faults(request)).Pointer);
    }

    private static JsonObject Request(string file, bool generation, int service = 200)
    {
        var request = ReportRequest.Json();
        request["ratePlans"] = new JsonArray("example-power-standard");
        request["panel"] = new JsonObject
        {
            ["serviceA"] = service,
            ["metered"] = new JsonObject
            {
                ["meterFile"] = new JsonObject { ["text"] = file }, ["generation"] = generation, ["storage"] = false, ["peakLimiting"] = false,
            },
        };
        return request;
    }

    private static string File(int days, int minutes, double peakKw)
    {
        var text = new StringBuilder("Time,kWh\n");
        var start = Instant.FromUtc(2026, 1, 1, 6, 0);
        for (var i = 0; i < days * 24 * 60 / minutes; i++)
        {
            var kw = i == 100 ? peakKw : 1;
            text.Append(CultureInfo.InvariantCulture, $"{(start + Duration.FromMinutes(minutes * i)).ToString("uuuu-MM-dd'T'HH:mm'Z'", CultureInfo.InvariantCulture)},{kw * minutes / 60}\n");
        }

        return text.ToString();
    }
}
