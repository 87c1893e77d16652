using System.Diagnostics;
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace ScheduleOpt.Service.Problems;

/// <summary>Writes problem details, whatever the caller accepts: an error that can't be read helps nobody.</summary>
internal static class ProblemWriter
{
    /// <summary>The media type of RFC 9457.</summary>
    public const string ContentType = "application/problem+json";

    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes a problem as the whole answer.</summary>
    public static async Task WriteAsync(HttpContext context, Problem problem)
    {
        var response = context.Response;
        response.StatusCode = problem.Kind.Status;
        response.ContentType = ContentType;
        response.Headers.CacheControl = "no-store";
        if (problem.RetryAfterSeconds is { } seconds)
        {
            response.Headers.RetryAfter = seconds.ToString(CultureInfo.InvariantCulture);
        }

        var body = Body(context, problem);
        response.ContentLength = body.Length;
        if (!HttpMethods.IsHead(context.Request.Method))
        {
            await response.Body.WriteAsync(body, context.RequestAborted);
        }
    }

    private static byte[] Body(HttpContext context, Problem problem)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer, Options))
        {
            json.WriteStartObject();
            json.WriteString("type", problem.Kind.Type);
            json.WriteString("title", problem.Kind.Title);
            json.WriteNumber("status", problem.Kind.Status);
            json.WriteString("detail", problem.Detail);
            json.WriteString("instance", context.Request.Path.ToUriComponent());
            WriteErrors(json, problem);
            if (problem.Kind.Status >= 500)
            {
                // The one thing that leads from an answer to its line in the log; 4xx explain themselves and stay equal for equal input.
                json.WriteString("traceId", Activity.Current?.TraceId.ToHexString() ?? context.TraceIdentifier);
            }

            json.WriteEndObject();
        }

        return buffer.ToArray();
    }

    private static void WriteErrors(Utf8JsonWriter json, Problem problem)
    {
        if (problem.Errors.Count == 0)
        {
            return;
        }

        json.WriteStartArray("errors");
        foreach (var fault in problem.Errors)
        {
            json.WriteStartObject();
            json.WriteString("pointer", fault.Pointer);
            json.WriteString("detail", fault.Rule);
            if (fault.Value.Length > 0)
            {
                json.WriteString("value", fault.Value);
            }

            if (fault.Line is { } line)
            {
                json.WriteNumber("line", line);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
