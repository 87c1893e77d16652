using System.Globalization;
using System.Text;
using CsvHelper;
using ScheduleOpt.Interchange.Reports;

namespace ScheduleOpt.Interchange.Tests.Reports;

public sealed class ComparisonCsvTests
{
    // The characters of OWASP's page on CSV injection.
    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("+1", "'+1")]
    [InlineData("-1", "'-1")]
    [InlineData("@SUM(A1)", "'@SUM(A1)")]
    [InlineData("\t=1", "'\t=1")]
    [InlineData("  =1", "'  =1")]
    [InlineData("=cmd|' /C calc'!A0,\"x\"", "\"'=cmd|' /C calc'!A0,\"\"x\"\"\"")]
    [InlineData("plain", "plain")]
    [InlineData("a,b", "\"a,b\"")]
    [InlineData("", "")]
    public void Text_ThatASpreadsheetWouldRun_IsMadeAText(string given, string field) => Assert.Equal(field, ComparisonCsv.Text(given));

    [Fact]
    public void Table_ReadBySomebodyElse_HoldsTheCells()
    {
        var request = ReportRequest.Json();
        request["setUps"]![0]!["name"] = "=HYPERLINK(\"x\"),\n1";
        request["today"]!["setUp"] = "=HYPERLINK(\"x\"),\n1";
        var (read, decided) = ReportRequest.Run(request);
        using var csv = new CsvReader(new StringReader(Encoding.UTF8.GetString(ComparisonCsv.Write(read, decided))), CultureInfo.InvariantCulture);
        csv.Read();
        csv.ReadHeader();
        foreach (var cell in decided.Cells)
        {
            Assert.True(csv.Read());
            Assert.Equal(cell.Year.SetUp.Name.StartsWith('=') ? "'" + cell.Year.SetUp.Name : cell.Year.SetUp.Name, csv.GetField("set_up"));
            Assert.Equal(cell.Year.RatePlan.Name, csv.GetField("rate_plan_name"));
            Assert.Equal(cell.Year.WholeHouseCost, csv.GetField<decimal>("whole_house_cost"));
            Assert.Equal(Math.Round(cell.LifeCycle!.NetSavings, 2, MidpointRounding.AwayFromZero), csv.GetField<decimal>("net_savings"));
            Assert.Equal(read.InputHash, csv.GetField("input_hash"));
        }

        Assert.False(csv.Read());
    }
}
