using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.Tests.Reports;

namespace ScheduleOpt.Interchange.Tests.Requests;

/// <summary>Public charging alone, in sessions, through request and year.</summary>
public sealed class PublicPlaceTests
{
    // By hand: 60 kWh from 10 % to 80 % are 42 kWh, over 0.92 at the public meter 45.652 kWh; at 50 kW 54.783 min; 1.00 + 45.652174 x 0.40 + 54.782609 x 0.05
    // = 1 + 18.260870 + 2.739130 = 22.00 a session. Components as in the open charge-point interface's Tariff (FLAT, ENERGY, TIME).
    [Fact]
    public void PublicChargingAlone_InSessions_CostsWhatItsSessionsCost()
    {
        var request = Request("""{"pricePerKwh":0.40,"pricePerSession":1.00,"pricePerMinute":0.05,"powerKw":50,"detourMinutes":12,"timeValuePerHour":20}""");
        var (read, decided) = ReportRequest.Run(request);
        var away = decided.Cells.First(c => c.Year.SetUp.Supply is null).Year.Away;
        Assert.Equal(22.00m, away.Sessions!.Session.Cost);
        Assert.Equal(45.652, away.Sessions.Session.MeterKwh, 3);

        // As many full sessions as fit and a last one for the rest; 12 minutes each on the way, at 20 an hour 4 a session, never in the cost.
        var full = (int)Math.Floor(away.Kwh / away.Sessions.Session.MeterKwh);
        var rest = away.Kwh - (full * away.Sessions.Session.MeterKwh);
        Assert.Equal(full + 1, away.Sessions.Sessions);
        Assert.Equal((full * 22.00m) + Math.Round(1 + (0.46m * (decimal)rest), 2, MidpointRounding.AwayFromZero), away.Cost);
        Assert.Equal(0.2 * away.Sessions.Sessions, away.Sessions.DetourHours, 9);
        Assert.Equal(4m * away.Sessions.Sessions, away.Sessions.DetourValue);

        // What a set-up at home lacks costs what a kWh of a full session does.
        Assert.Equal(22.00m / 45.652173913m, read.Case.AwayPricePerKwh, 8);
        var outlet = decided.Cells.First(c => c.Year.SetUp.Name == "Outlet").Year.Away;
        Assert.Null(outlet.Sessions);
        Assert.Equal(Math.Round((decimal)Math.Round(outlet.PublicKwh, 6) * read.Case.AwayPricePerKwh, 2, MidpointRounding.AwayFromZero), outlet.PublicCost);
    }

    [Theory]
    [InlineData("""{"pricePerKwh":0.4,"pricePerMinute":0.05}""", "#/awayCharging/powerKw")]
    [InlineData("""{"pricePerKwh":0.4,"powerKw":0}""", "#/awayCharging/powerKw")]
    [InlineData("""{"pricePerKwh":0.4,"powerKw":50,"timeValuePerHour":20}""", "#/awayCharging/detourMinutes")]
    [InlineData("""{"pricePerSession":1,"powerKw":50}""", "#/awayCharging/pricePerKwh")]
    [InlineData("""{"pricePerKwh":0.4,"powerKw":50,"pricePerSession":-1}""", "#/awayCharging/pricePerSession")]
    [InlineData("""{"pricePerKwh":0.4,"powerKw":50,"idleFee":1}""", "#/awayCharging/idleFee")]
    public void PublicPrice_WithAFault_NamesTheField(string away, string pointer) =>
        Assert.Equal(pointer, Assert.Single(ReportRequest.Faults(Request(away))).Pointer);

    private static JsonObject Request(string away)
    {
        var request = ReportRequest.Json();
        request["setUps"]!.AsArray().Add(JsonNode.Parse("""{"name":"Public charging alone","publicChargingOnly":true}"""));
        request["awayCharging"] = JsonNode.Parse(away);
        request.Remove("scenario");
        return request;
    }
}
