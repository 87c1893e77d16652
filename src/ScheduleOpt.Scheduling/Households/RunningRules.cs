using NodaTime;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>How a car may run while it charges.</summary>
public sealed record RunningRules
{
    /// <summary>Full current whenever it charges, no limit on windows.</summary>
    public static RunningRules FullCurrent { get; } = new();

    /// <summary>Whether the current may be set between the least and the most; otherwise it is the most, or off. Default: no.</summary>
    public bool Adjustable { get; init; }

    /// <summary>Whether a current that is set is a whole number of amperes. Default: no.</summary>
    public bool WholeAmperes { get; init; }

    /// <summary>The most windows in one stay; none: no limit. 1 or more.</summary>
    public int? MostWindows { get; init; }

    /// <summary>The least length of a window. Default zero. Whole intervals are on until it has passed; a window that ends with its stay may be shorter.</summary>
    public Duration LeastOn { get; init; } = Duration.Zero;

    /// <summary>The least pause between two windows. Default zero.</summary>
    public Duration LeastOff { get; init; } = Duration.Zero;
}
