using ScheduleOpt.Service.Health;

namespace ScheduleOpt.Service.Hosting;

/// <summary>Solves a small night before the first caller comes: a cold process takes about a second for its first answer otherwise.</summary>
internal sealed class WarmUp(ILogger<WarmUp> log) : BackgroundService
{
    /// <inheritdoc/>
    protected override Task ExecuteAsync(CancellationToken stoppingToken) => Task.Run(
        () =>
        {
            try
            {
                new SolverCheck().Check();
            }
            catch (NotReadyException e)
            {
                // Readiness says so whenever it is asked; here it only belongs in the log.
                log.LogError(e, "The solver is not ready");
            }
        },
        stoppingToken);
}
