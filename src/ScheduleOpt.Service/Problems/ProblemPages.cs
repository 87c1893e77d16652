using Microsoft.AspNetCore.Diagnostics;
using ScheduleOpt.Service.Hosting;

namespace ScheduleOpt.Service.Problems;

/// <summary>Turns every error without a body, and every exception, into problem details.</summary>
internal static class ProblemPages
{
    /// <summary>Adds both to the pipeline.</summary>
    public static void UseProblems(this WebApplication app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            ExceptionHandler = context => ProblemWriter.WriteAsync(context, Of(context.Features.Get<IExceptionHandlerFeature>()?.Error)),
        });
        app.UseStatusCodePages(pages => ProblemWriter.WriteAsync(pages.HttpContext, Of(pages.HttpContext)));
    }

    private static Problem Of(Exception? exception) => exception is BadHttpRequestException { StatusCode: < 500 } bad
        ? Of(bad.StatusCode)
        : new(ProblemKind.InternalError, "The failure is in the log under this traceId. The request itself may be sent again.");

    private static Problem Of(HttpContext context) => context.Response.StatusCode switch
    {
        StatusCodes.Status404NotFound => new(
            ProblemKind.NotFound,
            $"{context.Request.Path.ToUriComponent()} is none of this service's addresses; they are listed in /openapi/v1.json."),
        StatusCodes.Status405MethodNotAllowed => new(
            ProblemKind.MethodNotAllowed,
            $"{context.Request.Method} is not offered here; offered: {context.Response.Headers.Allow}."),
        StatusCodes.Status429TooManyRequests => new(
            ProblemKind.TooManyRequests,
            "More requests came within a minute than are taken; wait as long as Retry-After says."),
        var status => Of(status),
    };

    private static Problem Of(int status) => status switch
    {
        StatusCodes.Status408RequestTimeout => new(ProblemKind.RequestTimeout, "The body arrived too slowly."),
        StatusCodes.Status413PayloadTooLarge => new(ProblemKind.BodyTooLarge, JsonBodies.TooLarge),
        StatusCodes.Status415UnsupportedMediaType => new(ProblemKind.UnsupportedMediaType, JsonBodies.WrongType),
        >= 500 => new(ProblemKind.InternalError, "The failure is in the log under this traceId."),
        _ => new(ProblemKind.BadRequest, "The request line, a header or the end of the body is broken."),
    };
}
