using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Hosting;

/// <summary>Refuses requests that change or compute something when a page of another origin sends them. There is no CORS.</summary>
internal static class Origins
{
    /// <summary>Adds the check to the pipeline.</summary>
    public static void UseOrigins(this WebApplication app) => app.Use(async (context, next) =>
    {
        if (IsSafe(context.Request.Method) || IsOwn(context.Request))
        {
            await next(context);
            return;
        }

        await ProblemWriter.WriteAsync(
            context,
            new(ProblemKind.ForeignOrigin, "The Origin header must be the service's own, or absent."));
    });

    private static bool IsSafe(string method) =>
        HttpMethods.IsGet(method) || HttpMethods.IsHead(method) || HttpMethods.IsOptions(method) || HttpMethods.IsTrace(method);

    private static bool IsOwn(HttpRequest request)
    {
        var origin = request.Headers.Origin;
        return origin.Count == 0 || (origin.Count == 1
            && string.Equals(origin[0], $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase));
    }
}
