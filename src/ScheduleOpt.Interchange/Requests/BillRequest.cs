using NodaTime;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>A metered series to be billed, read and checked: the body of <c>POST /v1/bills</c>.</summary>
/// <param name="RatePlan">The rate plan.</param>
/// <param name="Series">Energy taken from the network.</param>
/// <param name="ReadingDates">Dates at whose start the meter was read, in the plan's zone; none: calendar months.</param>
/// <param name="Warnings">What the asker must know about how the request was read.</param>
public sealed record BillRequest(
    RatePlan RatePlan, MeteredSeries Series, IReadOnlyList<LocalDate>? ReadingDates, IReadOnlyList<string> Warnings);
