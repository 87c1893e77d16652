namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>What is decided of a car in a segment.</summary>
internal enum OnOff : byte
{
    /// <summary>It does not charge.</summary>
    Off,

    /// <summary>Any share of it: the relaxation.</summary>
    Relaxed,

    /// <summary>The edge of a window: any share of it, but it counts as on for limits.</summary>
    Edge,

    /// <summary>All of it.</summary>
    On,

    /// <summary>An integer decides.</summary>
    Integer,
}
