namespace ScheduleOpt.Interchange.Meters;

/// <summary>What a reading is that stands once for the hour that the clock shows twice in autumn.</summary>
public enum RepeatedHour
{
    /// <summary>The first of the two; the second is missing.</summary>
    FirstAlone,

    /// <summary>Both together: each gets half.</summary>
    BothTogether,
}
