namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>What the limits of tiers count where a month has several periods.</summary>
public enum TierCounting
{
    /// <summary>The use of the month in all its periods, where the limits of these periods are the same; else that of each period.</summary>
    OverAllPeriods,

    /// <summary>The use of each period by itself.</summary>
    ByPeriod,
}
