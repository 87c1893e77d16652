namespace ScheduleOpt.Comparison.Waterfalls;

/// <summary>The parts of the difference between two cells.</summary>
public enum WaterfallPart
{
    /// <summary>Energy charges on what the house uses without the car.</summary>
    HouseEnergy,

    /// <summary>Energy charges on what the car takes, losses apart.</summary>
    CarEnergy,

    /// <summary>Energy lost in charging, at what the car's energy costs on average.</summary>
    Losses,

    /// <summary>Customer charges.</summary>
    CustomerCharge,

    /// <summary>Demand charges.</summary>
    DemandCharge,

    /// <summary>The rest of the bill: adjustments, credits, exports, minimum bill, taxes, rounding.</summary>
    OtherCharges,

    /// <summary>Away charging.</summary>
    AwayCharging,

    /// <summary>What makes the year end as it began.</summary>
    EndCorrection,

    /// <summary>First cost as an equal amount a year.</summary>
    Install,
}
