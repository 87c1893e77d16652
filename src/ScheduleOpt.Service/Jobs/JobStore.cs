using System.Security.Cryptography;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Service.Hosting;

namespace ScheduleOpt.Service.Jobs;

/// <summary>Holds jobs in memory: few at once, and ended ones not for long.</summary>
public sealed partial class JobStore : IDisposable
{
    private readonly Dictionary<string, Job> jobs = [];
    private readonly Lock holding = new();
    private readonly SolveGate gate;
    private readonly TimeProvider time;
    private readonly ILogger<JobStore> log;
    private readonly int most;
    private readonly TimeSpan kept;

    /// <summary>Makes a store: <c>Limits:JobsHeld</c> (default 8), <c>Limits:JobMinutes</c> that an ended one is kept (default 10).</summary>
    public JobStore(SolveGate gate, TimeProvider time, IConfiguration configuration, ILogger<JobStore> log)
    {
        (this.gate, this.time, this.log) = (gate, time, log);
        most = Math.Max(0, configuration.GetValue("Limits:JobsHeld", 8));
        kept = TimeSpan.FromMinutes(Math.Max(1, configuration.GetValue("Limits:JobMinutes", 10)));
    }

    /// <summary>How many are held.</summary>
    public int Count
    {
        get
        {
            lock (holding)
            {
                Forget();
                return jobs.Count;
            }
        }
    }

    /// <summary>Starts a job.</summary>
    /// <param name="work">The work; it tells how far it has come and gives up when asked.</param>
    /// <returns>The job; none where as many as may be are held and none of them has ended.</returns>
    public Job? Start(Func<IProgress<YearProgress>, CancellationToken, WrittenAnswer> work)
    {
        Job job;
        lock (holding)
        {
            Forget();
            if (jobs.Count >= most && jobs.Values.Where(j => j.EndedAt is not null).MinBy(j => j.EndedAt) is { } oldest)
            {
                Remove(oldest);
            }

            if (jobs.Count >= most)
            {
                return null;
            }

            job = new Job(Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16)));
            jobs.Add(job.Id, job);
        }

        _ = Task.Run(() => RunAsync(job, work));
        return job;
    }

    /// <summary>A job by its id; none where it is not held, or no longer.</summary>
    public Job? Find(string id)
    {
        lock (holding)
        {
            Forget();
            return jobs.GetValueOrDefault(id);
        }
    }

    /// <summary>Cancels a job and forgets it, with whatever it had worked out.</summary>
    public Job? Cancel(string id)
    {
        lock (holding)
        {
            if (!jobs.Remove(id, out var job))
            {
                return null;
            }

            job.End(JobState.Cancelled, null, time.GetTimestamp());
            job.Cancel();
            return job;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (holding)
        {
            foreach (var job in jobs.Values)
            {
                job.Cancel();
            }

            jobs.Clear();
        }
    }

    private async Task RunAsync(Job job, Func<IProgress<YearProgress>, CancellationToken, WrittenAnswer> work)
    {
        try
        {
            using var place = await PlaceAsync(job.Cancellation);
            var answer = work(job, job.Cancellation);
            job.End(JobState.Done, answer, time.GetTimestamp());
        }
        catch (OperationCanceledException) when (job.Cancellation.IsCancellationRequested)
        {
            job.End(JobState.Cancelled, null, time.GetTimestamp());
        }
#pragma warning disable CA1031 // Nobody awaits a job: what it throws must end in its state and in the log.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Failed(e, job.Id);
            job.End(JobState.Failed, null, time.GetTimestamp());
        }
    }

    // A job can wait: where the queue is full it asks again.
    private async Task<System.Threading.RateLimiting.RateLimitLease> PlaceAsync(CancellationToken cancellation)
    {
        while (true)
        {
            var place = await gate.EnterAsync(cancellation);
            if (place.IsAcquired)
            {
                return place;
            }

            place.Dispose();
            await Task.Delay(TimeSpan.FromMilliseconds(250), time, cancellation);
        }
    }

    private void Forget()
    {
        foreach (var old in jobs.Values.Where(j => j.EndedAt is { } at && time.GetElapsedTime(at) > kept).ToArray())
        {
            Remove(old);
        }
    }

    private void Remove(Job job)
    {
        jobs.Remove(job.Id);
        job.Dispose();
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "Job {Id} failed")]
    private partial void Failed(Exception exception, string id);
}
