using Microsoft.Net.Http.Headers;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Hosting;

/// <summary>The media types in which an endpoint answers, the preferred one first.</summary>
/// <param name="Types">The types, such as <c>text/csv</c>.</param>
internal sealed record OfferedMedia(IReadOnlyList<string> Types)
{
    /// <summary>JSON, which every endpoint offers that says nothing else.</summary>
    public const string Json = "application/json";

    /// <summary>JSON alone.</summary>
    public static OfferedMedia JsonAlone { get; } = new([Json]);

    /// <summary>The type of the answer to a request: settled by <see cref="ChoosesMedia"/>.</summary>
    public static string ChosenFor(HttpContext context) => context.Features.Get<Chosen>()?.Type ?? Json;

    /// <summary>The offered type that the request likes best; none: it takes none of them.</summary>
    /// <remarks>RFC 9110, section 12.5.1: of the ranges that fit a type the most specific decides, and a weight of 0 means "not this".</remarks>
    public string? BestFor(HttpRequest request)
    {
        if (request.Headers.Accept.Count == 0)
        {
            return Types[0];
        }

        return MediaTypeHeaderValue.TryParseList(request.Headers.Accept, out var ranges)
            ? Types.Select(type => (Type: type, Weight: WeightOf(type, ranges))).Where(t => t.Weight > 0).OrderByDescending(t => t.Weight).FirstOrDefault().Type
            : null;
    }

    private static double WeightOf(string type, IList<MediaTypeHeaderValue> ranges)
    {
        var slash = type.IndexOf('/', StringComparison.Ordinal);
        var fitting = ranges
            .Where(r => r.MatchesAllTypes || (r.Type.Equals(type[..slash], StringComparison.OrdinalIgnoreCase)
                && (r.MatchesAllSubTypes || r.SubType.Equals(type[(slash + 1)..], StringComparison.OrdinalIgnoreCase))))
            .OrderByDescending(r => r.MatchesAllTypes ? 0 : r.MatchesAllSubTypes ? 1 : 2)
            .FirstOrDefault();
        return fitting is null ? 0 : fitting.Quality ?? 1;
    }

    /// <summary>The choice that was made for a request.</summary>
    internal sealed record Chosen(string Type);
}

/// <summary>Settles the media type of the answer before any work is done for it, and refuses a request that takes none that is offered.</summary>
internal sealed class ChoosesMedia : IEndpointFilter
{
    /// <inheritdoc/>
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var http = context.HttpContext;
        http.Response.Headers.Vary = HeaderNames.Accept;
        var offered = http.GetEndpoint()?.Metadata.GetMetadata<OfferedMedia>() ?? OfferedMedia.JsonAlone;
        if (offered.BestFor(http.Request) is not { } best)
        {
            return new ProblemResult(new(ProblemKind.NotAcceptable, $"Offered: {string.Join(", ", offered.Types)}."));
        }

        http.Features.Set(new OfferedMedia.Chosen(best));
        return await next(context);
    }
}
