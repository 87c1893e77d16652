namespace ScheduleOpt.Service.Hosting;

/// <summary>JSON that is already written, as the result of a handler.</summary>
internal sealed class JsonAnswer(byte[] body) : IResult
{
    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.ContentType = "application/json; charset=utf-8";
        httpContext.Response.ContentLength = body.Length;
        return httpContext.Response.Body.WriteAsync(body, httpContext.RequestAborted).AsTask();
    }
}
