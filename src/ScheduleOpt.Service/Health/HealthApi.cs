using System.Text.Json;
using Microsoft.Extensions.DependencyInjection.Extensions;
using ScheduleOpt.Interchange;
using ScheduleOpt.Service.Hosting;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Health;

/// <summary>Whether the process lives, and whether it can answer.</summary>
internal static class HealthApi
{
    /// <summary>Registers what must be there before the service can answer.</summary>
    public static void AddReadiness(this WebApplicationBuilder builder) =>
        builder.Services.TryAddEnumerable(
        [
            ServiceDescriptor.Singleton<IReadinessCheck, ZoneDataCheck>(),
            ServiceDescriptor.Singleton<IReadinessCheck, RatePlansCheck>(),
            ServiceDescriptor.Singleton<IReadinessCheck, SolverCheck>(),
        ]);

    /// <summary>Maps both addresses.</summary>
    public static void MapHealth(this WebApplication app)
    {
        var health = app.MapGroup("/health").WithTags("Health");
        health.MapGet("/live", Live)
            .WithName("getLive")
            .WithSummary("Whether the process lives")
            .WithDescription("Answers as long as the process does. Needs no key and is not counted against the request limit.");
        health.MapGet("/ready", Ready)
            .WithName("getReady")
            .WithSummary("Whether the service can answer")
            .WithDescription("Checks the zone data, the rate plans and the solver. 503 names what is missing.");
    }

    private static WrittenAnswer Live(HttpContext context)
    {
        context.Response.Headers.CacheControl = "no-store";
        return WrittenAnswer.Json("""{"status":"live"}"""u8.ToArray());
    }

    private static IResult Ready(HttpContext context, IEnumerable<IReadinessCheck> checks)
    {
        context.Response.Headers.CacheControl = "no-store";
        var found = new SortedDictionary<string, string>(StringComparer.Ordinal);
        var missing = new List<Fault>();
        foreach (var check in checks)
        {
            try
            {
                found[check.Name] = check.Check();
            }
            catch (NotReadyException e)
            {
                missing.Add(new Fault($"#/{check.Name}", e.Message));
            }
        }

        return missing.Count > 0
            ? new ProblemResult(Problem.Of(ProblemKind.NotReady, missing) with { RetryAfterSeconds = 5 })
            : WrittenAnswer.Json(JsonSerializer.SerializeToUtf8Bytes(new { status = "ready", checks = found }));
    }
}
