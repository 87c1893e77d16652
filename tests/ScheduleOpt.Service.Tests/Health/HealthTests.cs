using System.Net;
using System.Text.Json;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using ScheduleOpt.Service.Health;

namespace ScheduleOpt.Service.Tests.Health;

public sealed class HealthTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Theory]
    [InlineData("/health/live", "live")]
    [InlineData("/health/ready", "ready")]
    public async Task Health_AllThere_Says200AndIsNotStored(string path, string status)
    {
        var response = await service.CreateClient().GetAsync(path);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Equal("no-store", response.Headers.CacheControl?.ToString());
        var body = JsonElement.Parse(await response.Content.ReadAsStringAsync());
        Assert.Equal(status, body.GetProperty("status").GetString());
    }

    [Fact]
    public async Task Ready_AllThere_NamesWhatWasChecked()
    {
        var checks = JsonElement.Parse(await service.CreateClient().GetStringAsync("/health/ready")).GetProperty("checks");
        Assert.Equal(["ratePlans", "solver", "zoneData"], checks.EnumerateObject().Select(c => c.Name).Order(StringComparer.Ordinal));
        Assert.Equal("answers", checks.GetProperty("solver").GetString());
    }

    [Fact]
    public async Task Ready_SomethingMissing_Says503AndNamesIt()
    {
        using var broken = new ServiceApplication
        {
            Configure = builder => builder.ConfigureTestServices(services => services.AddSingleton<IReadinessCheck, Missing>()),
        };
        var response = await broken.CreateClient().GetAsync("/health/ready");
        var problem = await ServiceApplication.ProblemOf(response, HttpStatusCode.ServiceUnavailable);
        Assert.Equal("#/solver", problem.GetProperty("errors")[0].GetProperty("pointer").GetString());
        Assert.NotNull(response.Headers.RetryAfter);
        Assert.Equal(HttpStatusCode.OK, (await broken.CreateClient().GetAsync("/health/live")).StatusCode);
    }

    private sealed class Missing : IReadinessCheck
    {
        public string Name => "solver";

        public string Check() => throw new NotReadyException("It does not answer.");
    }
}
