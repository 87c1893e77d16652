namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>What the stamp of a reading counts.</summary>
internal enum StampClock : byte
{
    /// <summary>Time shown by the table's clock.</summary>
    Table,

    /// <summary>UTC: its offset is stated.</summary>
    Utc,

    /// <summary>Time elapsed since local midnight.</summary>
    SinceMidnight,
}
