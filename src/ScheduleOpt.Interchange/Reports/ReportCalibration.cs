using System.Globalization;
using NodaTime.Text;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>The model held against bills, month by month.</summary>
internal static class ReportCalibration
{
    /// <summary>Writes the part; nothing where there are no bills.</summary>
    public static void Write(HtmlPage page, Calibration? calibration)
    {
        if (calibration is null)
        {
            return;
        }

        var result = calibration.Result;
        page.Element("h3", "The model against bills").Say(calibration.Words).Table(
            calibration.Bills.Spans is null ? "By calendar month, kWh" : "By bill, to the day of the next reading, kWh",
            [calibration.Bills.Spans is null ? "Month" : "Bill", ">Billed", ">Modelled", ">Billed less modelled"],
            Enumerable.Range(0, result.BilledKwh.Count).Select(m => (IReadOnlyList<string>)
            [
                Name(calibration.Bills, m), ReportWords.Plain(result.BilledKwh[m], 1), ReportWords.Plain(result.ModelledKwh[m], 1),
                ReportWords.Plain(result.BilledKwh[m] - result.ModelledKwh[m], 1),
            ]));
    }

    private static string Name(CalibrationBills bills, int bill) => bills.Spans is { } spans
        ? $"{LocalDatePattern.Iso.Format(spans[bill].Start)} to {LocalDatePattern.Iso.Format(spans[bill].End)}"
        : CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(bill + 1);
}
