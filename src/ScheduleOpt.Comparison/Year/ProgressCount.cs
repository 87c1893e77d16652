namespace ScheduleOpt.Comparison.Year;

/// <summary>Counts parts as they are done, on any thread, and tells whoever asked.</summary>
internal sealed class ProgressCount(IProgress<YearProgress>? listener, int total)
{
    private int done;

    public void Step(int parts = 1) => listener?.Report(new YearProgress(Interlocked.Add(ref done, parts), total));
}
