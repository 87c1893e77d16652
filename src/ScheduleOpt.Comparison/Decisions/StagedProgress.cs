using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>Tells of several runs of the same year as of one.</summary>
internal sealed class StagedProgress(IProgress<YearProgress> listener, int stages) : IProgress<YearProgress>
{
    private int stage;

    /// <inheritdoc/>
    public void Report(YearProgress value) => listener.Report(new YearProgress((stage * value.Total) + value.Done, stages * value.Total));

    /// <summary>Begins the next run.</summary>
    public void Next() => stage++;
}
