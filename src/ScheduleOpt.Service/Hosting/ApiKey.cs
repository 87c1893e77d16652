using System.Security.Cryptography;
using System.Text;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Hosting;

/// <summary>Where a key is configured, every request but those for health must show it.</summary>
internal static class ApiKey
{
    /// <summary>The setting that holds the key.</summary>
    public const string Setting = "ScheduleOpt:ApiKey";

    /// <summary>The same in the environment.</summary>
    public const string Variable = "ScheduleOpt__ApiKey";

    /// <summary>The shortest key.</summary>
    public const int LeastLength = 24;

    /// <summary>Adds the check to the pipeline, if there is a key.</summary>
    /// <exception cref="ServiceRefusedException">The key is too short to protect anything.</exception>
    public static void UseApiKey(this WebApplication app)
    {
        if (app.Configuration[Setting] is not { Length: > 0 } key)
        {
            return;
        }

        if (key.Length < LeastLength)
        {
            throw new ServiceRefusedException($"{Setting} must have at least {LeastLength} characters.");
        }

        var expected = SHA256.HashData(Encoding.UTF8.GetBytes($"Bearer {key}"));
        app.Use(async (context, next) =>
        {
            if (context.Request.Path.StartsWithSegments("/health", StringComparison.Ordinal) || Shows(context.Request, expected))
            {
                await next(context);
                return;
            }

            context.Response.Headers.WWWAuthenticate = "Bearer";
            await ProblemWriter.WriteAsync(
                context,
                new(ProblemKind.KeyRequired, "Send the service's key as Authorization: Bearer <key>."));
        });
    }

    // Hashes of equal length, compared in constant time: the answer's delay tells nothing about the key.
    private static bool Shows(HttpRequest request, byte[] expected) =>
        CryptographicOperations.FixedTimeEquals(
            SHA256.HashData(Encoding.UTF8.GetBytes(request.Headers.Authorization.ToString())), expected);
}
