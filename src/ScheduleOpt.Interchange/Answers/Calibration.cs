using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Comparison.Calibration;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Interchange.HouseLoads;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>The model of a comparison held against the household's bills.</summary>
/// <param name="Bills">The bills.</param>
/// <param name="Result">How far the model is from them.</param>
/// <param name="Words">The verdict with its figures.</param>
public sealed record Calibration(CalibrationBills Bills, BillCalibration Result, string Words)
{
    /// <summary>The verdict in two words at most.</summary>
    public string Verdict => Result.IsCalibrated ? "calibrated" : "not calibrated";

    /// <summary>Holds the modelled house, with today's car where the bills contain it, against the bills; none where there are none.</summary>
    public static Calibration? Of(ComparisonRequest request, DecisionResult decided)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(decided);
        if (request.Calibration is not { } bills)
        {
            return null;
        }

        var result = new BillCalibration(bills.BilledKwh, bills.Spans is { } spans ? OnDaysOf(spans, request) : ByMonth(bills, request, decided));
        var words = string.Create(
            CultureInfo.InvariantCulture,
            $"Held against {Described(bills, request.Case.Year)}, the modelled house{(bills.ContainCar ? " with today's car" : "")} is {(result.IsCalibrated ? "calibrated" : "not calibrated")}: ")
            + string.Create(CultureInfo.InvariantCulture, $"mean bias (NMBE) {100 * result.Bias:0.0} %, scatter (CV(RMSE)) {100 * result.Scatter:0.0} %. Limits: {BillCalibration.Basis}.")
            + (bills.IsItsOwnSource ? " The house load was made of these very bills: this proves nothing." : "");
        return new(bills, result, words);
    }

    // The house is the same in every cell; the car is that of today's.
    private static double[] ByMonth(CalibrationBills bills, ComparisonRequest request, DecisionResult decided)
    {
        var modelled = bills.ContainCar
            ? decided.Cells.First(c => c.Name == request.Decision.Today).Year.BillWithCar
            : decided.Cells[0].Year.BillWithoutCar;

        // By the clock of a rate plan of another zone, hours of the year lie in a period of their own: a period belongs to the household's month in which its middle lies.
        return [.. modelled.Periods.GroupBy(p => (p.Start + ((p.End - p.Start) / 2)).InZone(request.Case.Zone.Zone).Month).OrderBy(m => m.Key).Select(m => (double)m.Sum(p => p.EnergyKwh))];
    }

    private static double[] OnDaysOf(IReadOnlyList<BillSpan> spans, ComparisonRequest request)
    {
        var days = request.Calibration!.ContainCar ? ModelledDays.OfHouseAndCar(request.Case, request.Decision.Today!) : ModelledDays.OfHouse(request.Case);
        return [.. spans.Select(s => days.Kwh(s.Start, s.End))];
    }

    private static string Described(CalibrationBills bills, int year)
    {
        if (bills.Spans is not { } spans)
        {
            return "twelve monthly bills";
        }

        var others = spans[0].Start.Year < year || spans[^1].End > new LocalDate(year + 1, 1, 1);
        return $"{spans.Count} bills from {LocalDatePattern.Iso.Format(spans[0].Start)} to {LocalDatePattern.Iso.Format(spans[^1].End)}"
            + (others ? $" (days of other years against the same days of {year})" : "");
    }
}
