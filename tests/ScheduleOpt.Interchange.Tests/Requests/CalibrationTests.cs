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

    // An hour of the year lies in another year by the rate plan's clock, and is billed on its own: no month may move by it.
    [Fact]
    public void Bills_OnARatePlanOfAnotherClock_AreHeldAgainstTheirOwnMonths()
    {
        var request = Request(Months, containCar: false);
        request["timeZone"] = "America/New_York";
        var modelled = Answer(request).GetProperty("months").EnumerateArray().Select(m => m.GetProperty("modelledKwh").GetDouble()).ToArray();
        Assert.Equal(12, modelled.Length);
        Assert.All(Months.Zip(modelled), p => Assert.Equal(p.First, p.Second, 0.01 * p.First));
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
    [InlineData("""{"billedKwh":[1e-160,1e-160,1e-160,1e-160,1e-160,1e-160,1e-160,1e-160,1e-160,1e-160,1e-160,1e-160],"billsContainCar":false}""", "#/calibration/billedKwh")]
    [InlineData("""{"billedKwh":[11.9,0,0,0,0,0,0,0,0,0,0,0],"billsContainCar":false}""", "#/calibration/billedKwh")]
    [InlineData("""{"billedKwh":[1,1,1,1,1,1,1,1,1,1,1,1]}""", "#/calibration/billsContainCar")]
    public void Bills_WithAFault_NameTheField(string bills, string pointer)
    {
        var request = Request(Months, containCar: false);
        request["calibration"] = JsonNode.Parse(bills);
        Assert.Contains(ReportRequest.Faults(request), f => f.Pointer == pointer);
    }

    [Fact]
    public void DatedBills_OfNextToNothing_AreRefusedWithTheLeast()
    {
        var fault = Assert.Single(ReportRequest.Faults(Dated([.. Enumerable.Repeat(1e-300, 12)])));
        Assert.Equal(("#/calibration/bills", "Must hold at least 1 kWh a bill in the mean."), (fault.Pointer, fault.Rule));
    }

    // The least that is taken: every figure of the answer is still a number.
    [Fact]
    public void Bills_OfTheLeast_AreAnswered()
    {
        var answer = Answer(Request([12, .. Enumerable.Repeat(0.0, 11)], containCar: false));
        Assert.Equal(-(Months.Sum() - 12) / 11, answer.GetProperty("nmbe").GetDouble(), Months.Sum() * 0.001);
        Assert.Equal("not calibrated", answer.GetProperty("verdict").GetString());
    }

    // Whether the bills are the house's own figures is asked of numbers alone; what is no number is the house's fault.
    [Fact]
    public void Bills_BesideAHouseThatIsFaulty_NameTheHouse()
    {
        var request = Request(Months, containCar: false);
        request["houseLoad"]!["monthlyKwh"]![3] = "450";
        Assert.Equal("#/houseLoad/monthlyKwh/3", Assert.Single(ReportRequest.Faults(request)).Pointer);
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

    // 1 kWh an hour to the end of June, 2 after it, in standard time; readings on the 17th. By hand: 17 December to 16 January has 15 days of 48 kWh (the December of another year, held against this
    // one's) and 16 of 24; the night of 8 March lacks an hour of 1 kWh, that of 1 November has one more of 2; 1 July begins at 23:00 standard time, an hour of 1 kWh still.
    private static readonly double[] ByHand = [1104, 744, 671, 744, 720, 744, 1103, 1488, 1488, 1440, 1490, 1440];

    [Fact]
    public void Bills_WithTheirOwnDates_AreHeldAgainstTheirOwnDays()
    {
        var answer = Answer(Dated(ByHand));
        Assert.Equal(ByHand, answer.GetProperty("months").EnumerateArray().Select(m => m.GetProperty("modelledKwh").GetDouble()));
        Assert.Equal("2025-12-17", answer.GetProperty("months")[0].GetProperty("start").GetString());
        Assert.Equal("2026-01-17", answer.GetProperty("months")[0].GetProperty("end").GetString());
        Assert.Equal(0, answer.GetProperty("nmbe").GetDouble());
        Assert.Equal(0, answer.GetProperty("cvRmse").GetDouble());
        Assert.Equal("calibrated", answer.GetProperty("verdict").GetString());
        Assert.StartsWith(
            "Held against 12 bills from 2025-12-17 to 2026-12-17 (days of other years against the same days of 2026), the modelled house is calibrated",
            answer.GetProperty("wording").GetString(),
            StringComparison.Ordinal);

        // One bill 110 kWh higher, one 110 lower: no bias; sqrt(2 x 110^2 / 11) / (13,176 / 12) = 46.904 / 1,098 = 4.272 %.
        var other = Answer(Dated([.. ByHand.Select((kwh, m) => kwh + (m == 2 ? 110 : m == 8 ? -110 : 0))]));
        Assert.Equal(0, other.GetProperty("nmbe").GetDouble());
        Assert.Equal(0.04272, other.GetProperty("cvRmse").GetDouble());
    }

    [Fact]
    public void Bills_OfFourWeeks_AreThirteen()
    {
        // 1 kWh an hour all year: 28 days of 672 kWh, but for the two of another length of day. n = 13: the bias of 13 bills 10 kWh too high is 130 / (12 x 682).
        var request = Dated(ByHand);
        request["houseLoad"] = new JsonObject { ["hourlyKwh"] = Array([.. Enumerable.Repeat(1.0, 8760)]) };
        var first = new NodaTime.LocalDate(2026, 1, 1);
        request["calibration"]!["bills"] = new JsonArray([.. Enumerable.Range(0, 13).Select(b => Bill(
            first.PlusDays(28 * b), first.PlusDays(28 * (b + 1)), b == 2 ? 681 : b == 10 ? 683 : 682))]);
        Assert.Equal(Math.Round(130.0 / (12 * 682), 5), Answer(request).GetProperty("nmbe").GetDouble());
    }

    [Fact]
    public void Bills_WithTheCarOnCalendarMonths_AreTheSameInEitherForm()
    {
        double[] Modelled(JsonObject request) =>
            [.. Answer(request).GetProperty("months").EnumerateArray().Select(m => m.GetProperty("modelledKwh").GetDouble())];
        var byMonth = Request([.. Months.Select(m => m * 1.5)], containCar: true);
        var dated = Request(Months, containCar: true);
        dated["calibration"] = new JsonObject
        {
            ["bills"] = new JsonArray([.. Months.Select((kwh, m) => Bill(new(2026, m + 1, 1), new NodaTime.LocalDate(2026, m + 1, 1).PlusMonths(1), kwh))]),
            ["billsContainCar"] = true,
        };
        var (expected, found) = (Modelled(byMonth), Modelled(dated));
        Assert.Equal(expected.Length, found.Length);
        Assert.All(expected.Zip(found), p => Assert.Equal(p.First, p.Second, 0.002));
        Assert.True(found.Sum() > Months.Sum() * 1.05, "There is no car in it.");
        var (read, decided) = ReportRequest.Run(dated);
        Assert.Contains("2026-03-01 to 2026-04-01", Encoding.UTF8.GetString(ComparisonReport.Write(read, decided)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(3, "start", "2026-03-16", "#/calibration/bills/3/start", "Bills must not overlap; the one before ends on 2026-03-17, and this one must start then.")]
    [InlineData(3, "start", "2026-03-18", "#/calibration/bills/3/start", "Bills must leave no gap; the one before ends on 2026-03-17, and this one must start then.")]
    [InlineData(3, "end", "2026-03-17", "#/calibration/bills/3/end", "Must be 20 to 45 days after start, 2026-03-17")]
    [InlineData(3, "end", "2026-05-17", "#/calibration/bills/3/end", "Must be 20 to 45 days after start, 2026-03-17")]
    [InlineData(3, "end", "17 April", "#/calibration/bills/3/end", "Must be a date such as 2026-01-14.")]
    [InlineData(0, "start", "9998-12-31", "#/calibration/bills/0/start", "Must lie between 1990-01-01 and 2100-01-01.")]
    public void DatedBill_WithAFault_NamesFieldRuleAndValue(int bill, string field, string value, string pointer, string rule)
    {
        var request = Dated(ByHand);
        request["calibration"]!["bills"]![bill]![field] = value;
        var fault = Assert.Single(ReportRequest.Faults(request), f => f.Pointer == pointer);
        Assert.StartsWith(rule, fault.Rule, StringComparison.Ordinal);
        Assert.Contains(value, fault.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void DatedBills_OutOfOrderTooFewOrInBothForms_AreRefused()
    {
        var request = Dated(ByHand);
        var bills = request["calibration"]!["bills"]!.AsArray();
        var last = bills[11]!;
        bills.RemoveAt(11);
        Assert.Equal("#/calibration/bills", Assert.Single(ReportRequest.Faults(request)).Pointer);
        bills.Insert(5, last);
        Assert.Contains(ReportRequest.Faults(request), f => f.Pointer == "#/calibration/bills/6/start" && f.Rule.StartsWith("Bills must be in order", StringComparison.Ordinal));
        request = Dated(ByHand);
        request["calibration"]!["billedKwh"] = Array(ByHand);
        Assert.Equal("#/calibration/bills", Assert.Single(ReportRequest.Faults(request)).Pointer);
    }

    // Thirteen bills of a month each are more than a year.
    [Fact]
    public void DatedBills_OfMoreThanAYear_AreRefused()
    {
        var request = Dated(ByHand);
        request["calibration"]!["bills"]!.AsArray().Add(Bill(new(2026, 12, 17), new(2027, 1, 17), 1000));
        var fault = Assert.Single(ReportRequest.Faults(request));
        Assert.Equal(("#/calibration/bills", "396 days"), (fault.Pointer, fault.Value));
    }

    private static JsonObject Dated(double[] kwh)
    {
        var request = ReportRequest.Json();
        request["houseLoad"] = new JsonObject { ["hourlyKwh"] = Array([.. Enumerable.Range(0, 8760).Select(h => h < 181 * 24 ? 1.0 : 2.0)]) };
        var first = new NodaTime.LocalDate(2025, 12, 17);
        request["calibration"] = new JsonObject
        {
            ["bills"] = new JsonArray([.. kwh.Select((energy, m) => Bill(first.PlusMonths(m), first.PlusMonths(m + 1), energy))]),
            ["billsContainCar"] = false,
        };
        return request;
    }

    private static JsonNode Bill(NodaTime.LocalDate start, NodaTime.LocalDate end, double kwh) => new JsonObject
    {
        ["start"] = NodaTime.Text.LocalDatePattern.Iso.Format(start), ["end"] = NodaTime.Text.LocalDatePattern.Iso.Format(end), ["energyKwh"] = kwh,
    };

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
