namespace ScheduleOpt.Service.Jobs;

/// <summary>Where a job stands.</summary>
public enum JobState
{
    /// <summary>It waits for a place or works.</summary>
    Running,

    /// <summary>Its answer can be fetched.</summary>
    Done,

    /// <summary>It failed here, not in the request.</summary>
    Failed,

    /// <summary>It was cancelled and is gone.</summary>
    Cancelled,
}
