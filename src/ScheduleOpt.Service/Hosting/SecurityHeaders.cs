namespace ScheduleOpt.Service.Hosting;

/// <summary>Headers that keep browsers from making more of an answer than it is.</summary>
internal static class SecurityHeaders
{
    /// <summary>Sets them on every answer, errors too.</summary>
    public static void UseSecurityHeaders(this WebApplication app) => app.Use((context, next) =>
    {
        context.Response.OnStarting(() =>
        {
            var headers = context.Response.Headers;
            headers.XContentTypeOptions = "nosniff";
            if (headers.ContentSecurityPolicy.Count == 0)
            {
                // A report brings its own, which lets its style through and nothing else.
                headers.ContentSecurityPolicy = "default-src 'none'; frame-ancestors 'none'";
            }

            headers["Referrer-Policy"] = "no-referrer";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            return Task.CompletedTask;
        });
        return next(context);
    });
}
