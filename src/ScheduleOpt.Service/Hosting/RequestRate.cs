using System.Globalization;
using System.Threading.RateLimiting;

namespace ScheduleOpt.Service.Hosting;

/// <summary>So many requests a minute from one address; health is not counted.</summary>
internal static class RequestRate
{
    /// <summary>Requests a minute by default (<c>Limits:RequestsPerMinute</c>): a hub asks once a night, an adviser in hundreds.</summary>
    public const int Default = 6000;

    /// <summary>Sets up the limit.</summary>
    public static void AddRequestRate(this WebApplicationBuilder builder)
    {
        var perMinute = Math.Max(1, builder.Configuration.GetValue("Limits:RequestsPerMinute", Default));
        builder.Services.AddRateLimiter(options =>
        {
            options.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            options.OnRejected = (rejected, _) =>
            {
                var wait = rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var after) ? after : TimeSpan.FromMinutes(1);
                rejected.HttpContext.Response.Headers.RetryAfter =
                    Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture);
                return ValueTask.CompletedTask;
            };
            options.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, string>(context =>
                context.Request.Path.StartsWithSegments("/health", StringComparison.Ordinal)
                    ? RateLimitPartition.GetNoLimiter("health")
                    : RateLimitPartition.GetFixedWindowLimiter(
                        context.Connection.RemoteIpAddress?.ToString() ?? "local",
                        _ => new() { PermitLimit = perMinute, Window = TimeSpan.FromMinutes(1) }));
        });
    }
}
