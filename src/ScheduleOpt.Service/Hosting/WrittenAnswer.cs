namespace ScheduleOpt.Service.Hosting;

/// <summary>An answer that is already written, as the result of a handler.</summary>
/// <param name="Body">Its bytes.</param>
/// <param name="ContentType">Their media type.</param>
public sealed record WrittenAnswer(byte[] Body, string ContentType) : IResult
{
    /// <summary>The policy under which a browser may show it; none: the service's own, under which nothing is shown.</summary>
    public string? ContentSecurityPolicy { get; init; }

    /// <summary>The name under which a browser would save it; none: not said.</summary>
    public string? FileName { get; init; }

    /// <summary>The status. Default 200.</summary>
    public int Status { get; init; } = StatusCodes.Status200OK;

    /// <summary>JSON.</summary>
    public static WrittenAnswer Json(byte[] body) => new(body, "application/json; charset=utf-8");

    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        ArgumentNullException.ThrowIfNull(httpContext);
        var response = httpContext.Response;
        response.StatusCode = Status;
        response.ContentType = ContentType;
        response.ContentLength = Body.Length;
        if (ContentSecurityPolicy is not null)
        {
            response.Headers.ContentSecurityPolicy = ContentSecurityPolicy;
        }

        if (FileName is not null)
        {
            response.Headers.ContentDisposition = $"attachment; filename=\"{FileName}\"";
        }

        return response.Body.WriteAsync(Body, httpContext.RequestAborted).AsTask();
    }
}
