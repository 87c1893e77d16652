namespace ScheduleOpt.Service.Hosting;

/// <summary>An answer that is already written, as the result of a handler. JSON unless said otherwise.</summary>
/// <param name="body">The answer.</param>
/// <param name="contentType">Its media type.</param>
public sealed class WrittenAnswer(byte[] body, string contentType = WrittenAnswer.Json) : IResult
{
    /// <summary>Media type of most answers.</summary>
    public const string Json = "application/json; charset=utf-8";

    /// <summary>The policy under which a browser may show it; none: the service's own, under which nothing is shown.</summary>
    public string? ContentSecurityPolicy { get; init; }

    /// <summary>The name under which a browser would save it; none: not said.</summary>
    public string? FileName { get; init; }

    /// <summary>The status. Default 200.</summary>
    public int Status { get; init; } = StatusCodes.Status200OK;

    /// <summary>JSON that is already written.</summary>
    public static implicit operator WrittenAnswer(byte[] json) => new(json);

    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        ArgumentNullException.ThrowIfNull(httpContext);
        var response = httpContext.Response;
        response.StatusCode = Status;
        response.ContentType = contentType;
        response.ContentLength = body.Length;
        if (ContentSecurityPolicy is not null)
        {
            response.Headers.ContentSecurityPolicy = ContentSecurityPolicy;
        }

        if (FileName is not null)
        {
            response.Headers.ContentDisposition = $"attachment; filename=\"{FileName}\"";
        }

        return response.Body.WriteAsync(body, httpContext.RequestAborted).AsTask();
    }
}
