namespace ScheduleOpt.Interchange.Meters;

/// <summary>What the seconds of a Green Button file count.</summary>
public enum EpochSeconds
{
    /// <summary>Not said: UTC as the standard has it, unless the file looks as if they were local; then whoever sends it is asked.</summary>
    NotSaid,

    /// <summary>Seconds of UTC since 1970, whatever the file looks like.</summary>
    Utc,

    /// <summary>Seconds of the household's local clock since 1970, daylight saving included.</summary>
    Local,
}
