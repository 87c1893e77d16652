namespace ScheduleOpt.Core.Homes;

/// <summary>How the charging unit is connected to the circuit.</summary>
public enum SupplyConnection
{
    /// <summary>By a plug in a receptacle. A worn or warm receptacle is a reason to stop.</summary>
    Receptacle,

    /// <summary>Fixed wiring, no receptacle.</summary>
    Hardwired,
}
