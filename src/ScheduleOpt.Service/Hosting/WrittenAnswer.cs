namespace ScheduleOpt.Service.Hosting;

/// <summary>An answer that is already written, as the result of a handler.</summary>
/// <param name="Body">Its bytes.</param>
/// <param name="ContentType">Their media type.</param>
public sealed record WrittenAnswer(byte[] Body, string ContentType) : IResult
{
    /// <summary>JSON.</summary>
    public static WrittenAnswer Json(byte[] body) => new(body, "application/json; charset=utf-8");

    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        ArgumentNullException.ThrowIfNull(httpContext);
        httpContext.Response.ContentType = ContentType;
        httpContext.Response.ContentLength = Body.Length;
        return httpContext.Response.Body.WriteAsync(Body, httpContext.RequestAborted).AsTask();
    }
}
