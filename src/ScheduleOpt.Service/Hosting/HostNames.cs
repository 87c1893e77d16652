using Microsoft.AspNetCore.HostFiltering;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Hosting;

/// <summary>Answers only under its own names, so that no foreign page reaches it through a name it controls (DNS rebinding).</summary>
internal static class HostNames
{
    private const string Default = "localhost;127.0.0.1;[::1]";

    /// <summary>Replaces the framework's own check, whose refusals are not problem details.</summary>
    public static void AddHostNames(this WebApplicationBuilder builder) =>
        builder.Services.PostConfigure<HostFilteringOptions>(options => options.AllowedHosts = ["*"]);

    /// <summary>Adds the check to the pipeline. <c>AllowedHosts</c> lists the names, separated by semicolons.</summary>
    public static void UseHostNames(this WebApplication app)
    {
        var setting = app.Configuration["AllowedHosts"];
        var names = (string.IsNullOrWhiteSpace(setting) || setting.Trim() == "*" ? Default : setting)
            .Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .ToHashSet(StringComparer.OrdinalIgnoreCase);
        app.Use(async (context, next) =>
        {
            if (names.Contains(context.Request.Host.Host))
            {
                await next(context);
                return;
            }

            await ProblemWriter.WriteAsync(
                context,
                new(
                    ProblemKind.UnknownHost,
                    $"The Host header must name one of {string.Join(", ", names)}; others are set by AllowedHosts."));
        });
    }
}
