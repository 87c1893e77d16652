using System.Buffers;
using Microsoft.Net.Http.Headers;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Hosting;

/// <summary>Reads the body of a request whole, within its limits.</summary>
internal static class JsonBodies
{
    /// <summary>The largest body. [bytes] 1 MiB.</summary>
    public const int MostBytes = JsonText.MostBytes;

    /// <summary>What is said of a larger one.</summary>
    public const string TooLarge = "The body may have at most 1 MiB (1,048,576 bytes).";

    /// <summary>What is said of another media type.</summary>
    public const string WrongType = "The body must be sent as application/json, in UTF-8.";

    /// <summary>Reads the body.</summary>
    /// <returns>The bytes, or the problem.</returns>
    public static async Task<(byte[] Body, Problem? Problem)> ReadAsync(HttpRequest request, CancellationToken cancellation)
    {
        if (!IsJson(request.ContentType))
        {
            return ([], new(ProblemKind.UnsupportedMediaType, WrongType));
        }

        if (request.ContentLength > MostBytes)
        {
            return ([], new(ProblemKind.BodyTooLarge, TooLarge));
        }

        var body = new ArrayBufferWriter<byte>((int)(request.ContentLength ?? 16 * 1024) + 1);
        while (true)
        {
            var read = await request.Body.ReadAsync(body.GetMemory(4096), cancellation);
            if (read == 0)
            {
                return (body.WrittenSpan.ToArray(), null);
            }

            body.Advance(read);
            if (body.WrittenCount > MostBytes)
            {
                return ([], new(ProblemKind.BodyTooLarge, TooLarge));
            }
        }
    }

    private static bool IsJson(string? contentType) =>
        MediaTypeHeaderValue.TryParse(contentType, out var type)
        && type.MediaType.Equals("application/json", StringComparison.OrdinalIgnoreCase)
        && (!type.Charset.HasValue || type.Charset.Equals("utf-8", StringComparison.OrdinalIgnoreCase));
}
