namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>What must be equal, or absent, for two neighbouring intervals to be solved as one.</summary>
[Flags]
internal enum MergeCondition
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>Import price.</summary>
    ImportPrice = 1,

    /// <summary>Export price.</summary>
    ExportPrice = 1 << 1,

    /// <summary>Carbon price.</summary>
    CarbonPrice = 1 << 2,

    /// <summary>Where each car is, and whether it can charge there.</summary>
    Availability = 1 << 3,

    /// <summary>The most that each car can take: current limits.</summary>
    CurrentLimit = 1 << 4,

    /// <summary>The rate at which each car stores, through overhead and heating.</summary>
    Rate = 1 << 5,

    /// <summary>The lower bound of each car's energy.</summary>
    LowerBound = 1 << 6,

    /// <summary>The upper bound of each car's energy.</summary>
    UpperBound = 1 << 7,

    /// <summary>House load.</summary>
    HouseLoad = 1 << 8,

    /// <summary>Solar production.</summary>
    Solar = 1 << 9,

    /// <summary>Membership of the hours whose use a block or a conditional amount counts.</summary>
    UseHours = 1 << 10,

    /// <summary>Membership of the averages of demand terms.</summary>
    DemandHours = 1 << 11,

    /// <summary>Membership of the billing periods of minimum bills.</summary>
    BillingPeriod = 1 << 12,

    /// <summary>A departure or return between: its wish must be met there.</summary>
    Trip = 1 << 13,

    /// <summary>The choice between import and export, which averages would blur.</summary>
    Flow = 1 << 14,

    /// <summary>The price of a stop.</summary>
    StopPrice = 1 << 15,
}
