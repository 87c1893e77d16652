using System.Threading.RateLimiting;

namespace ScheduleOpt.Service.Hosting;

/// <summary>Lets as many solves run at once as there are cores; a few more may wait, and the rest are told to come back.</summary>
public sealed class SolveGate : IDisposable
{
    /// <summary>After how many seconds it is worth asking again. Most solves take less.</summary>
    public const int RetryAfterSeconds = 2;

    private readonly ConcurrencyLimiter limiter;

    /// <summary>Makes a gate: <c>Limits:SolvesAtOnce</c> (default: cores), <c>Limits:SolvesWaiting</c> (default: twice as many).</summary>
    public SolveGate(IConfiguration configuration)
    {
        var atOnce = Math.Max(1, configuration.GetValue("Limits:SolvesAtOnce", Environment.ProcessorCount));
        limiter = new ConcurrencyLimiter(new ConcurrencyLimiterOptions
        {
            PermitLimit = atOnce,
            QueueLimit = Math.Max(0, configuration.GetValue("Limits:SolvesWaiting", 2 * atOnce)),
            QueueProcessingOrder = QueueProcessingOrder.OldestFirst,
        });
    }

    /// <summary>Waits for a place.</summary>
    /// <returns>The place, to be given back; or one that is not acquired when too many wait already.</returns>
    public ValueTask<RateLimitLease> EnterAsync(CancellationToken cancellation) => limiter.AcquireAsync(1, cancellation);

    /// <inheritdoc/>
    public void Dispose() => limiter.Dispose();
}
