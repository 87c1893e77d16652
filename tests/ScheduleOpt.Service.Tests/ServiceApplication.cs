using System.Net;
using System.Text.Json;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;

namespace ScheduleOpt.Service.Tests;

/// <summary>The service in-process, as a hub sees it.</summary>
public sealed class ServiceApplication : WebApplicationFactory<Program>
{
    private readonly Dictionary<string, string> settings = new() { ["Limits:RequestsPerMinute"] = "100000" };

    public ServiceApplication()
    {
    }

    internal ServiceApplication(params (string Name, string Value)[] settings)
    {
        foreach (var (name, value) in settings)
        {
            this.settings[name] = value;
        }
    }

    internal Action<IWebHostBuilder>? Configure { get; init; }

    /// <summary>Checks that an answer is problem details as RFC 9457 wants them, and gives them back.</summary>
    internal static async Task<JsonElement> ProblemOf(HttpResponseMessage response, HttpStatusCode status)
    {
        Assert.Equal(status, response.StatusCode);
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.ToString());
        var problem = JsonElement.Parse(await response.Content.ReadAsStringAsync());
        Assert.StartsWith("https://scheduleopt.example/problems/", problem.GetProperty("type").GetString(), StringComparison.Ordinal);
        Assert.Equal((int)status, problem.GetProperty("status").GetInt32());
        Assert.False(string.IsNullOrWhiteSpace(problem.GetProperty("title").GetString()));
        Assert.False(string.IsNullOrWhiteSpace(problem.GetProperty("detail").GetString()));
        Assert.Equal(response.RequestMessage!.RequestUri!.AbsolutePath, problem.GetProperty("instance").GetString());
        return problem;
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        foreach (var (name, value) in settings)
        {
            builder.UseSetting(name, value);
        }

        Configure?.Invoke(builder);
    }
}
