namespace ScheduleOpt.Scheduling;

/// <summary>Whether neighbouring intervals that can't be told apart are solved as one.</summary>
public enum Reduction
{
    /// <summary>Merge them: the same optimum from far fewer columns and rows.</summary>
    Merged,

    /// <summary>Keep every interval: for tests and measurements.</summary>
    Unmerged,
}
