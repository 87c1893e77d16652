namespace ScheduleOpt.Comparison.Year;

/// <summary>How far a comparison has come.</summary>
/// <param name="Done">Parts done: bills, simulations, cells.</param>
/// <param name="Total">Parts in all.</param>
public readonly record struct YearProgress(int Done, int Total);
