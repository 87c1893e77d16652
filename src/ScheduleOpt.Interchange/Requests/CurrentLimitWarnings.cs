namespace ScheduleOpt.Interchange.Requests;

/// <summary>Says what limits of the current mean that no car can charge within.</summary>
internal static class CurrentLimitWarnings
{
    /// <summary>A sentence for each limit that lies below the least current of a car.</summary>
    public static IEnumerable<string> Of(IReadOnlyList<DailyCurrentLimit> limits, IReadOnlyList<CarRequest> cars)
    {
        foreach (var limit in limits)
        {
            var idle = cars.Where(c => limit.MostA < c.Vehicle.MinimumCurrentA).ToArray();
            if (idle.Length > 0)
            {
                var who = idle.Length == cars.Count ? "a car" : string.Join(", ", idle.Select(c => c.Name));
                yield return FormattableString.Invariant(
                    $"The limit of {limit.MostA:0.###} A from {Clock(limit.Hours.FromMinute)} to {Clock(limit.Hours.UntilMinute)} is below the least current, ")
                    + FormattableString.Invariant($"{idle.Min(c => c.Vehicle.MinimumCurrentA):0.###} A, that {who} can charge with: no charging in these hours, as with noCharging.");
            }
        }
    }

    private static string Clock(int minute) => FormattableString.Invariant($"{minute / 60:00}:{minute % 60:00}");
}
