using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Interchange.HouseLoads;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>The days of a bill.</summary>
/// <param name="Start">The date at whose start the meter was read and the bill begins.</param>
/// <param name="End">The date at whose start it was read again: the first day of the next bill.</param>
public sealed record BillSpan(LocalDate Start, LocalDate End);

/// <summary>Reads bills with dates of their own: in order, each from where the one before it ends, about a year together.</summary>
internal static class DatedBillsReader
{
    // A month's reading is moved by weekends and holidays; a bill of two months has other statistics (common practice, no source).
    private const int FewestDays = 20;
    private const int MostDays = 45;

    // Every season once, and none twice, to within a reading (common practice, no source).
    private const int FewestDaysInAll = 350;
    private const int MostDaysInAll = 380;

    private static readonly LocalDate First = new(1990, 1, 1);
    private static readonly LocalDate Last = new(2100, 1, 1);

    /// <summary>Reads the bills; null where one is faulty.</summary>
    public static (IReadOnlyList<BillSpan> Spans, double[] Kwh)? Read(JsonField field)
    {
        if (field.Items(1, BillCalibration.MostBills, "bills") is not { } items)
        {
            return null;
        }

        var before = field.Faults.Count;
        var (spans, energy) = (new List<BillSpan>(), new List<double>());
        BillSpan? last = null;
        foreach (var item in items)
        {
            if (item.Members("start", "end", "energyKwh") is not { } bill)
            {
                last = null;
                continue;
            }

            energy.Add(bill.Number("energyKwh", new(0, 50_000, "kWh")) ?? 0);
            var (start, end) = (Date(bill.Required("start")), Date(bill.Required("end")));
            var span = start is { } from && end is { } until ? new BillSpan(from, until) : null;
            if (span is not null)
            {
                Check(bill, span, last);
                spans.Add(span);
            }

            last = span;
        }

        if (items.Count < BillCalibration.Months)
        {
            field.Faults.Add(field.Pointer, $"Must hold {BillCalibration.Months} to {BillCalibration.MostBills} bills.", $"{items.Count} bills");
        }

        if (field.Faults.Count > before)
        {
            return null;
        }

        var days = Period.DaysBetween(spans[0].Start, spans[^1].End);
        if (days is < FewestDaysInAll or > MostDaysInAll)
        {
            field.Faults.Add(field.Pointer, $"Must cover about a year: {FewestDaysInAll} to {MostDaysInAll} days from the first start to the last end.", $"{days} days");
            return null;
        }

        return (spans, [.. energy]);
    }

    private static LocalDate? Date(JsonField? maybe)
    {
        if (maybe is not { } field || RecurrenceReader.Date(field) is not { } date)
        {
            return null;
        }

        if (date < First || date > Last)
        {
            field.Fault($"Must lie between {Text(First)} and {Text(Last)}.");
            return null;
        }

        return date;
    }

    private static void Check(JsonMembers bill, BillSpan span, BillSpan? before)
    {
        if (Period.DaysBetween(span.Start, span.End) is < FewestDays or > MostDays)
        {
            bill.Optional("end")!.Value.Fault($"Must be {FewestDays} to {MostDays} days after start, {Text(span.Start)}: the date of the next reading, on which the next bill starts.");
        }

        if (before is null || span.Start == before.End)
        {
            return;
        }

        bill.Optional("start")!.Value.Fault(
            span.Start < before.Start ? $"Bills must be in order; the one before starts on {Text(before.Start)}."
            : $"Bills must {(span.Start < before.End ? "not overlap" : "leave no gap")}; the one before ends on {Text(before.End)}, and this one must start then.");
    }

    private static string Text(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
