using NodaTime;

namespace ScheduleOpt.Scheduling.Windows;

/// <summary>One uninterrupted run of charging at full power.</summary>
/// <param name="Start">When charging begins.</param>
/// <param name="End">When it ends; later than the start.</param>
public readonly record struct ChargingWindow(Instant Start, Instant End)
{
    /// <summary>How long it is. [h]</summary>
    public double Hours => (End - Start).TotalHours;
}
