namespace ScheduleOpt.Interchange.Requests;

/// <summary>The unit in which distances are shown.</summary>
public enum DistanceUnit
{
    /// <summary>Kilometres. [km]</summary>
    Kilometre,

    /// <summary>International miles. [mi]</summary>
    Mile,
}
