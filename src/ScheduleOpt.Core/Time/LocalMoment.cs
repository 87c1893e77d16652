using NodaTime;

namespace ScheduleOpt.Core.Time;

/// <summary>A local time resolved to an instant.</summary>
/// <param name="Instant">When it is.</param>
/// <param name="Shown">The local time to show; differs from what was asked only where that does not exist.</param>
/// <param name="Reading">How the local time was read.</param>
public readonly record struct LocalMoment(Instant Instant, LocalDateTime Shown, LocalReading Reading);

/// <summary>How a local time was read.</summary>
public enum LocalReading
{
    /// <summary>It exists once.</summary>
    Unique,

    /// <summary>It does not exist: the clocks jump over it.</summary>
    Skipped,

    /// <summary>It exists twice; the first was taken.</summary>
    FirstOfTwo,

    /// <summary>It exists twice; the second was taken.</summary>
    SecondOfTwo,
}
