namespace ScheduleOpt.Scheduling;

/// <summary>Where the car is during an interval.</summary>
public enum Place : byte
{
    /// <summary>Plugged in at home.</summary>
    Home,

    /// <summary>At a stop away from home; it may charge there.</summary>
    Stop,

    /// <summary>On the road.</summary>
    Road,
}
