using Serilog;
using Serilog.Events;
using Serilog.Formatting.Compact;

namespace ScheduleOpt.Service.Hosting;

/// <summary>One line of compact JSON a request: method, path, status, elapsed time, trace id. Never a body, a query or a header.</summary>
internal static class RequestLog
{
    /// <summary>Sets up the log.</summary>
    public static void AddRequestLog(this WebApplicationBuilder builder) =>
        builder.Services.AddSerilog(
            (services, log) => log
                .MinimumLevel.Information()
                .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
                .MinimumLevel.Override("System", LogEventLevel.Warning)
                .MinimumLevel.Override("Microsoft.Hosting.Lifetime", LogEventLevel.Information)
                .ReadFrom.Services(services)
                .Enrich.FromLogContext()
                .WriteTo.Console(new CompactJsonFormatter()),

            // Each host has a log of its own: the command line and the tests may run more than one in a process.
            preserveStaticLogger: true);

    /// <summary>Adds it to the pipeline.</summary>
    public static void UseRequestLog(this WebApplication app) => app.UseSerilogRequestLogging(options =>
    {
        options.Logger = app.Services.GetRequiredService<Serilog.ILogger>();
        options.MessageTemplate = "{RequestMethod} {RequestPath} {StatusCode} in {Elapsed:0.0} ms";
        options.GetLevel = static (context, _, exception) => exception is not null || context.Response.StatusCode >= 500
            ? LogEventLevel.Error
            : context.Request.Path.StartsWithSegments("/health", StringComparison.Ordinal)
                ? LogEventLevel.Debug
                : LogEventLevel.Information;
    });
}
