using NodaTime;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Says what least lengths of windows mean that the grid can't show.</summary>
internal static class RunningWarnings
{
    /// <summary>A sentence for each length that is no whole number of grid steps: it is kept in whole intervals, so that windows or pauses get longer.</summary>
    /// <param name="step">The grid step.</param>
    /// <param name="cars">The cars with their rules.</param>
    public static IEnumerable<string> Of(Duration step, IReadOnlyList<CarRequest> cars) =>
        Kept("leastOnMinutes", step, cars.Select(c => c.Running.LeastOn)).Concat(Kept("leastOffMinutes", step, cars.Select(c => c.Running.LeastOff)));

    private static IEnumerable<string> Kept(string name, Duration step, IEnumerable<Duration> lengths)
    {
        foreach (var minutes in lengths.Select(l => l.TotalMinutes).Distinct().Where(m => m % step.TotalMinutes != 0))
        {
            var kept = Math.Ceiling(minutes / step.TotalMinutes) * step.TotalMinutes;
            yield return FormattableString.Invariant($"options/gridMinutes: {name} of {minutes:0} is kept in whole steps of {step.TotalMinutes:0} min, so for {kept:0} min. Ask for a finer grid to keep it as it is.");
        }
    }
}
