namespace ScheduleOpt.Interchange.Meters;

/// <summary>What a single time beside a reading means.</summary>
public enum StampLabel
{
    /// <summary>The interval begins then.</summary>
    Start,

    /// <summary>The interval ends then.</summary>
    End,
}
