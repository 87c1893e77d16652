using System.Globalization;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>The model held against bills, month by month.</summary>
internal static class ReportCalibration
{
    /// <summary>Writes the part; nothing where there are no bills.</summary>
    public static void Write(HtmlPage page, ComparisonRequest request, DecisionResult decided)
    {
        if (Calibration.Of(request, decided) is not { } calibration)
        {
            return;
        }

        var result = calibration.Result;
        page.Element("h3", "The model against bills").Say(calibration.Words).Table(
            "By calendar month, kWh",
            ["Month", ">Billed", ">Modelled", ">Billed less modelled"],
            Enumerable.Range(0, result.BilledKwh.Count).Select(m => (IReadOnlyList<string>)
            [
                CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(m + 1), ReportWords.Plain(result.BilledKwh[m], 1), ReportWords.Plain(result.ModelledKwh[m], 1),
                ReportWords.Plain(result.BilledKwh[m] - result.ModelledKwh[m], 1),
            ]));
    }
}
