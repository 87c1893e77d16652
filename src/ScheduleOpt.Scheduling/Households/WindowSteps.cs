using NodaTime;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>Windows as runs of one current.</summary>
public static class WindowSteps
{
    /// <summary>Each window, parted where its current changes.</summary>
    /// <param name="boundaries">Boundaries of the intervals, n + 1.</param>
    /// <param name="currentA">Current in each interval while charging. [A, per phase]</param>
    /// <param name="windows">The windows in order.</param>
    public static IReadOnlyList<CurrentStep> Of(Instant[] boundaries, double[] currentA, IReadOnlyList<ChargingWindow> windows)
    {
        ArgumentNullException.ThrowIfNull(boundaries);
        ArgumentNullException.ThrowIfNull(currentA);
        ArgumentNullException.ThrowIfNull(windows);
        var steps = new List<CurrentStep>(windows.Count);
        foreach (var window in windows)
        {
            var i = Array.BinarySearch(boundaries, window.Start);
            for (i = i >= 0 ? i : ~i - 1; i < currentA.Length && boundaries[i] < window.End; i++)
            {
                var (start, end) = (Instant.Max(boundaries[i], window.Start), Instant.Min(boundaries[i + 1], window.End));
                if (start > window.Start && steps[^1].CurrentA == currentA[i])
                {
                    steps[^1] = steps[^1] with { End = end };
                }
                else
                {
                    steps.Add(new CurrentStep(start, end, currentA[i]));
                }
            }
        }

        return steps;
    }
}
