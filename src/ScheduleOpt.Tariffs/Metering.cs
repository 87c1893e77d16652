namespace ScheduleOpt.Tariffs;

/// <summary>What a rate plan is applied to.</summary>
public enum Metering
{
    /// <summary>The whole house, the car included.</summary>
    WholeHouse,

    /// <summary>The car alone, on a meter of its own; the house stays on another plan.</summary>
    SeparateMeter,

    /// <summary>The car alone, measured behind the house's meter and taken off the house's use.</summary>
    Submeter,
}
