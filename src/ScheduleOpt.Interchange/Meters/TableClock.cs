namespace ScheduleOpt.Interchange.Meters;

/// <summary>The clock that the times of a table are of.</summary>
public enum TableClock
{
    /// <summary>The household's legal time, with daylight saving.</summary>
    LegalTime,

    /// <summary>The household's standard time all the year: every day has 24 hours.</summary>
    StandardTime,

    /// <summary>UTC.</summary>
    Utc,
}
