namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>What the cells of a column mostly are.</summary>
internal enum ColumnKind
{
    Blank,
    DateAndTime,
    Date,
    Time,
    Number,
    Other,
}
