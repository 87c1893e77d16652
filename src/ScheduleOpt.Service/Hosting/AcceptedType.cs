using Microsoft.Net.Http.Headers;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Hosting;

/// <summary>Chooses the media type of the answer, or refuses a request that accepts none of those offered, before any work is done for it.</summary>
internal sealed class AcceptedType : IEndpointFilter
{
    /// <summary>The type chosen for a request.</summary>
    public static string Of(HttpContext context) => (string)context.Items[typeof(AcceptedType)]!;

    /// <inheritdoc/>
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var http = context.HttpContext;
        http.Response.Headers.Vary = HeaderNames.Accept;
        var offered = http.GetEndpoint()?.Metadata.GetMetadata<OfferedTypes>() ?? OfferedTypes.JsonAlone;
        if (Chosen(http.Request, offered.Types) is not { } type)
        {
            return new ProblemResult(new(ProblemKind.NotAcceptable, $"Offered: {string.Join(", ", offered.Types)}."));
        }

        http.Items[typeof(AcceptedType)] = type;
        return await next(context);
    }

    private static string? Chosen(HttpRequest request, string[] offered)
    {
        if (request.Headers.Accept.Count == 0)
        {
            return offered[0];
        }

        if (!MediaTypeHeaderValue.TryParseList(request.Headers.Accept, out var ranges))
        {
            return null;
        }

        var best = offered.Select(type => (type, Weight: WeightOf(type.Split('/'), ranges))).MaxBy(o => o.Weight);
        return best.Weight > 0 ? best.type : null;
    }

    // RFC 9110, section 12.5.1: the most specific range that fits decides, and a weight of 0 means "not this".
    private static double WeightOf(string[] type, IList<MediaTypeHeaderValue> ranges)
    {
        var fitting = ranges
            .Where(r => r.MatchesAllTypes || (r.Type.Equals(type[0], StringComparison.OrdinalIgnoreCase)
                && (r.MatchesAllSubTypes || r.SubType.Equals(type[1], StringComparison.OrdinalIgnoreCase))))
            .OrderByDescending(r => r.MatchesAllTypes ? 0 : r.MatchesAllSubTypes ? 1 : 2)
            .FirstOrDefault();
        return fitting is null ? 0 : fitting.Quality ?? 1;
    }
}
