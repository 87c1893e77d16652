using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Reports;
using ScheduleOpt.Interchange.Tests.Reports;

namespace ScheduleOpt.Interchange.Tests.Requests;

/// <summary>The modelled year held against monthly bills, through request, answer and report.</summary>
public sealed class CalibrationTests
{
    private static readonly double[] Months = [700, 620, 560, 450, 400, 480, 620, 600, 470, 430, 520, 650];

    [Fact]
    public void Bills_OfWhichTheHouseWasMade_AreMetAndProveNothing()
    {
        var answer = Answer(Request(Months, containCar: false));
        Assert.Equal("calibrated", answer.GetProperty("verdict").GetString());
        Assert.InRange(Math.Abs(answer.GetProperty("nmbe").GetDouble()), 0, 0.003);
        Assert.False(answer.GetProperty("isIndependent").GetBoolean());
        Assert.Contains("proves nothing", answer.GetProperty("wording").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Bills_WithTheCar_AreHeldAgainstHouseAndTodaysCar()
    {
        var request = Request([.. Months.Select(m => m * 1.5)], containCar: true);
        var (read, decided) = ReportRequest.Run(request);
        var answer = JsonElement.Parse(ComparisonAnswerWriter.Write(read, decided)).GetProperty("calibration");
        var modelled = answer.GetProperty("months").EnumerateArray().Select(m => m.GetProperty("modelledKwh").GetDouble()).ToArray();
        var today = decided.Cells.First(c => c.Name == read.Decision.Today).Year;
        Assert.Equal(Months.Sum() + today.Energy.HomeWallKwh, modelled.Sum(), 0.01 * Months.Sum());

        // The two statistics by their own formulas, n - 1.
        var billed = Months.Select(m => m * 1.5).ToArray();
        var mean = billed.Average();
        Assert.Equal(billed.Zip(modelled, (b, m) => b - m).Sum() / (11 * mean), answer.GetProperty("nmbe").GetDouble(), 4);
        Assert.Equal(Math.Sqrt(billed.Zip(modelled, (b, m) => (b - m) * (b - m)).Sum() / 11) / mean, answer.GetProperty("cvRmse").GetDouble(), 4);

        var page = Encoding.UTF8.GetString(ComparisonReport.Write(read, decided));
        Assert.Contains($"is {answer.GetProperty("verdict").GetString()}", page, StringComparison.Ordinal);
        Assert.True(page.IndexOf("NMBE", StringComparison.Ordinal) < page.IndexOf("<h2>Results", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("""{"billedKwh":[1,2],"billsContainCar":false}""", "#/calibration/billedKwh")]
    [InlineData("""{"billedKwh":[0,0,0,0,0,0,0,0,0,0,0,0],"billsContainCar":false}""", "#/calibration/billedKwh")]
    [InlineData("""{"billedKwh":[1,1,1,1,1,1,1,1,1,1,1,1]}""", "#/calibration/billsContainCar")]
    public void Bills_WithAFault_NameTheField(string bills, string pointer)
    {
        var request = Request(Months, containCar: false);
        request["calibration"] = JsonNode.Parse(bills);
        Assert.Contains(ReportRequest.Faults(request), f => f.Pointer == pointer);
    }

    [Fact]
    public void Bills_WithoutAHouseOrToday_SayWhatIsMissing()
    {
        var request = Request(Months, containCar: true);
        request.Remove("houseLoad");
        request.Remove("today");
        request.Remove("lifeCycle");
        Assert.Equal(["#/houseLoad", "#/today"], ReportRequest.Faults(request).Select(f => f.Pointer).Order());
    }

    private static JsonObject Request(double[] billed, bool containCar)
    {
        var request = ReportRequest.Json();
        request["houseLoad"] = new JsonObject { ["monthlyKwh"] = Array(Months) };
        request["calibration"] = new JsonObject { ["billedKwh"] = Array(billed), ["billsContainCar"] = containCar };
        return request;
    }

    private static JsonArray Array(double[] numbers) => [.. numbers.Select(n => (JsonNode)JsonValue.Create(n))];

    private static JsonElement Answer(JsonObject request)
    {
        var (read, decided) = ReportRequest.Run(request);
        return JsonElement.Parse(ComparisonAnswerWriter.Write(read, decided)).GetProperty("calibration");
    }
}
