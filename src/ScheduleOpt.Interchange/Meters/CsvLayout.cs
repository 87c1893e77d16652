namespace ScheduleOpt.Interchange.Meters;

/// <summary>Where a utility's table has what, as far as the client says. Whatever is left out is guessed, and the guess is reported.</summary>
/// <remarks>A column is named by its header, or by <c>#</c> and its number from 1.</remarks>
public sealed record CsvLayout
{
    /// <summary>Number of rows before the first row of readings, the header among them.</summary>
    public int? RowsBeforeReadings { get; init; }

    /// <summary>Column of dates, or of dates with times.</summary>
    public string? DateColumn { get; init; }

    /// <summary>Column of the time at which an interval begins (or ends, see <see cref="Label"/>), where dates stand alone.</summary>
    public string? TimeColumn { get; init; }

    /// <summary>Column of the time, with or without a date, at which an interval ends.</summary>
    public string? EndColumn { get; init; }

    /// <summary>Column of energy delivered to the house.</summary>
    public string? DeliveredColumn { get; init; }

    /// <summary>Column of energy received from the house.</summary>
    public string? ReceivedColumn { get; init; }

    /// <summary>Column of net energy, negative where more was received than delivered.</summary>
    public string? NetColumn { get; init; }

    /// <summary>Unit of the readings.</summary>
    public MeterUnit? Unit { get; init; }

    /// <summary>Whether a single time is the start or the end of its interval.</summary>
    public StampLabel? Label { get; init; }

    /// <summary>Order of day, month and year.</summary>
    public DateOrder? DateOrder { get; init; }

    /// <summary>The clock that times are of.</summary>
    public TableClock? Clock { get; init; }

    /// <summary>Length of an interval, 1 to 1440. [min]</summary>
    public int? IntervalMinutes { get; init; }

    /// <summary>What a reading is that stands once for the hour that the clock shows twice.</summary>
    public RepeatedHour? RepeatedHour { get; init; }
}
