namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Where a table has what, decided.</summary>
internal sealed record TableLayout
{
    /// <summary>Number of the first row of readings, from 0.</summary>
    public required int FirstRow { get; init; }

    public required StampText Stamps { get; init; }

    public required NumberText Numbers { get; init; }

    /// <summary>Column of the date, or of the date with the time.</summary>
    public required int Date { get; init; }

    /// <summary>Column of the time, where the date stands alone.</summary>
    public int? Time { get; init; }

    /// <summary>Column of the end of an interval.</summary>
    public int? End { get; init; }

    /// <summary>Columns of readings; one flow each. None of a table with a row a day.</summary>
    public IReadOnlyList<(int Column, FlowDirection? Direction)> Values { get; init; } = [];

    /// <summary>Columns of the intervals of a day, in order, of a table with a row a day.</summary>
    public IReadOnlyList<int> DayColumns { get; init; } = [];

    /// <summary>Which of <see cref="DayColumns"/> is filled on days of 25 hours only.</summary>
    public int? ExtraColumn { get; init; }

    /// <summary>Column that says what kind of service or flow a row is of.</summary>
    public int? Kind { get; init; }

    /// <summary>Column that says whether a reading was estimated.</summary>
    public int? Quality { get; init; }

    public required MeterUnit Unit { get; init; }

    public StampLabel Label { get; init; }
}
