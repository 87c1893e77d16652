namespace ScheduleOpt.Scheduling;

/// <summary>Which shortfall is spared first where not everything can be met.</summary>
public enum ShortfallOrder
{
    /// <summary>The next departure's first, then the one after it.</summary>
    InTimeOrder,

    /// <summary>The least total, whichever departure bears it.</summary>
    LeastTotal,
}
