using System.Text.Json;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Service.Hosting;

namespace ScheduleOpt.Service.Jobs;

/// <summary>A long piece of work that answers later.</summary>
/// <param name="id">Unguessable: who knows it may read and cancel the job.</param>
public sealed class Job(string id) : IProgress<YearProgress>, IDisposable
{
    private readonly CancellationTokenSource cancellation = new();
    private readonly Lock changing = new();
    private YearProgress progress;

    /// <summary>Its name in addresses.</summary>
    public string Id => id;

    /// <summary>Where it stands.</summary>
    public JobState State { get; private set; } = JobState.Running;

    /// <summary>The answer; none until it is done.</summary>
    public WrittenAnswer? Answer { get; private set; }

    /// <summary>When it ended, by the service's clock; none while it runs. [ticks of the clock]</summary>
    public long? EndedAt { get; private set; }

    /// <summary>Ends when the job is to be given up.</summary>
    public CancellationToken Cancellation => cancellation.Token;

    /// <inheritdoc/>
    public void Report(YearProgress value)
    {
        lock (changing)
        {
            // Parts are told on any thread: one that is told late must not turn the count back.
            progress = value.Done > progress.Done ? value : progress;
        }
    }

    /// <summary>Ends it; only the first end counts.</summary>
    public void End(JobState state, WrittenAnswer? answer, long at)
    {
        lock (changing)
        {
            if (State == JobState.Running)
            {
                (State, Answer, EndedAt) = (state, answer, at);
            }
        }
    }

    /// <summary>Asks it to give up.</summary>
    public void Cancel() => cancellation.Cancel();

    /// <summary>The job as JSON.</summary>
    public byte[] Json()
    {
        lock (changing)
        {
            return JsonSerializer.SerializeToUtf8Bytes(new
            {
                id,
                state = JsonNamingPolicy.CamelCase.ConvertName(State.ToString()),
                done = progress.Done,
                total = progress.Total,
                result = State == JobState.Done ? $"/v1/jobs/{id}/result" : null,
            });
        }
    }

    /// <inheritdoc/>
    public void Dispose() => cancellation.Dispose();
}
