namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Whether every departure of the horizon can be met.</summary>
public enum NightOutcome
{
    /// <summary>Every departure has what it needs.</summary>
    Ready,

    /// <summary>Some departure is short by more than 0.01 kWh: the best schedule is given all the same.</summary>
    Short,
}
