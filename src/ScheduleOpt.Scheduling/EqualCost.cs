namespace ScheduleOpt.Scheduling;

/// <summary>Which of two times is taken whose energy costs the same; only the direct sweep chooses, an LP takes either.</summary>
public enum EqualCost
{
    /// <summary>The earlier: room is left for the taper, which the model does not know. A year has no step 3 that would mend it.</summary>
    ChargeEarly,

    /// <summary>The later: stored energy dwells least, as step 3 wants it.</summary>
    ChargeLate,
}
