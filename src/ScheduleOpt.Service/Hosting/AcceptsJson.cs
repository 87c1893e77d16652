using Microsoft.Net.Http.Headers;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Hosting;

/// <summary>Refuses a request that accepts no JSON, before any work is done for it.</summary>
internal sealed class AcceptsJson : IEndpointFilter
{
    /// <inheritdoc/>
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        context.HttpContext.Response.Headers.Vary = HeaderNames.Accept;
        return IsWelcome(context.HttpContext.Request)
            ? await next(context)
            : new ProblemResult(new(ProblemKind.NotAcceptable, "Offered: application/json."));
    }

    // RFC 9110, section 12.5.1: the most specific range that fits decides, and a weight of 0 means "not this".
    private static bool IsWelcome(HttpRequest request)
    {
        if (request.Headers.Accept.Count == 0)
        {
            return true;
        }

        if (!MediaTypeHeaderValue.TryParseList(request.Headers.Accept, out var ranges))
        {
            return false;
        }

        var fitting = ranges
            .Where(r => r.MatchesAllTypes || (r.Type.Equals("application", StringComparison.OrdinalIgnoreCase)
                && (r.MatchesAllSubTypes || r.SubType.Equals("json", StringComparison.OrdinalIgnoreCase))))
            .OrderByDescending(r => r.MatchesAllTypes ? 0 : r.MatchesAllSubTypes ? 1 : 2)
            .FirstOrDefault();
        return fitting is not null && (fitting.Quality ?? 1) > 0;
    }
}
