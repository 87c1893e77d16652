using System.Net;
using Microsoft.AspNetCore.Http;

namespace ScheduleOpt.Service.Hosting;

/// <summary>Where the service listens: on this machine alone, unless a key protects it.</summary>
internal static class ListenAddresses
{
    /// <summary>The address where nothing else is asked for.</summary>
    public const string Default = "http://127.0.0.1:5080";

    /// <summary>Sets the addresses, and refuses one outside this machine without a key.</summary>
    /// <exception cref="ServiceRefusedException">An address outside this machine, and no key.</exception>
    public static void AddListening(this WebApplicationBuilder builder)
    {
        var addresses = Of(builder.Configuration);
        var key = builder.Configuration[ApiKey.Setting];
        if (string.IsNullOrEmpty(key) && addresses.FirstOrDefault(a => !IsLoopback(a)) is { } open)
        {
            throw new ServiceRefusedException(
                $"{open} can be reached from other machines. The service listens on loopback alone unless an API key is set: "
                + $"give {ApiKey.Setting} (environment: {ApiKey.Variable}), or listen on {Default}.");
        }

        // Set here, so that neither a container's port variables nor the framework's own default can widen what was checked.
        builder.WebHost.UseUrls([.. UrlsOf(builder.Configuration)]);
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;

            // A little above our own limit, so that ours is the one that answers; this one only guards what we don't read.
            kestrel.Limits.MaxRequestBodySize = JsonBodies.MostBytes + (64 * 1024);
        });
    }

    /// <summary>Whether an address can be reached from this machine alone.</summary>
    internal static bool IsLoopback(string address)
    {
        var binding = BindingAddress.Parse(address);
        return binding.IsUnixPipe
            || binding.Host.Equals("localhost", StringComparison.OrdinalIgnoreCase)
            || (IPAddress.TryParse(binding.Host.Trim('[', ']'), out var ip) && IPAddress.IsLoopback(ip));
    }

    internal static IEnumerable<string> Of(IConfiguration configuration) =>
        UrlsOf(configuration).Concat(configuration
            .GetSection("Kestrel:Endpoints")
            .GetChildren()
            .Select(endpoint => endpoint["Url"])
            .OfType<string>());

    private static string[] UrlsOf(IConfiguration configuration) =>
        configuration["urls"] is { Length: > 0 } urls
            ? urls.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            : [Default];
}
