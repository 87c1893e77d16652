namespace ScheduleOpt.Core.Homes.Panels;

/// <summary>What an estimate says. None of them is a clearance.</summary>
public enum PanelOutcome
{
    /// <summary>The data can't decide; the reasons say why.</summary>
    CannotDecide,

    /// <summary>By this estimate the service has room for the load.</summary>
    RoomByThisEstimate,

    /// <summary>By this estimate the service has no room for the load as it is.</summary>
    NoRoomByThisEstimate,
}
