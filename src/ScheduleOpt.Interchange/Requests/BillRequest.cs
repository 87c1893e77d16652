using NodaTime;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>A metered series to be billed, read and checked: the body of <c>POST /v1/bills</c>.</summary>
public sealed record BillRequest
{
    /// <summary>The rate plan.</summary>
    public required RatePlan RatePlan { get; init; }

    /// <summary>Energy taken from the network.</summary>
    public required MeteredSeries Series { get; init; }

    /// <summary>Dates at whose start the meter was read, in the plan's zone; none: calendar months.</summary>
    public required IReadOnlyList<LocalDate>? ReadingDates { get; init; }

    /// <summary>What is given beside plan and series; every option of the plan has its choice.</summary>
    public required BillInput Input { get; init; }

    /// <summary>Whether lines of the plan's document mean something to the asker: it comes with the program.</summary>
    public required bool HasDocumentLines { get; init; }

    /// <summary>What the asker must know about how the request was read.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>The bill.</summary>
    public Bill Bill() => Biller.Bill(RatePlan, Series, ReadingDates, Input);
}
