namespace ScheduleOpt.Scheduling;

/// <summary>Which shortfall is spared first where not everything can be met.</summary>
public enum ShortfallOrder
{
    /// <summary>The next departure's first, then the one after it.</summary>
    InTimeOrder,

    /// <summary>The least total of trip shortfalls, then of target shortfalls, whichever departure bears them. So away charging that some trip needs may be planned on an earlier one that the battery could
    /// serve, where that meets a later target; there is never more of it in all.</summary>
    LeastTotal,
}
