using NodaTime;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>A while at one current.</summary>
/// <param name="Start">When it begins.</param>
/// <param name="End">When it ends; later than the start.</param>
/// <param name="CurrentA">The current. [A, per phase] Above 0.</param>
public readonly record struct CurrentStep(Instant Start, Instant End, double CurrentA)
{
    /// <summary>How long it is. [h]</summary>
    public double Hours => (End - Start).TotalHours;
}
