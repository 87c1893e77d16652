namespace ScheduleOpt.Comparison.SetUps;

/// <summary>How well a range is known.</summary>
public enum Evidence
{
    /// <summary>Read in the source itself.</summary>
    Read,

    /// <summary>Read in a page that reports the source.</summary>
    Reported,

    /// <summary>Worked out from published figures.</summary>
    Derived,

    /// <summary>From memory, not confirmed: to be treated as a guess.</summary>
    FromMemory,
}
