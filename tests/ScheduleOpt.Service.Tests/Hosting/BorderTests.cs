using System.Net;
using System.Net.Http.Headers;

namespace ScheduleOpt.Service.Tests.Hosting;

/// <summary>What is refused before a handler sees it: hosts, origins, keys, rates.</summary>
public sealed class BorderTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    private const string Key = "0123456789abcdef01234567";

    [Theory]
    [InlineData("localhost")]
    [InlineData("localhost:5080")]
    [InlineData("127.0.0.1:5080")]
    [InlineData("[::1]:5080")]
    public async Task Host_OfThisMachine_IsAnswered(string host)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/health/live") { Headers = { Host = host } };
        Assert.Equal(HttpStatusCode.OK, (await service.CreateClient().SendAsync(request)).StatusCode);
    }

    [Theory]
    [InlineData("evil.example")]
    [InlineData("localhost.evil.example")]
    [InlineData("192.168.1.7:5080")]
    public async Task Host_Foreign_Is400(string host)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/health/live") { Headers = { Host = host } };
        var problem = await ServiceApplication.ProblemOf(await service.CreateClient().SendAsync(request), HttpStatusCode.BadRequest);
        Assert.EndsWith("/unknown-host", problem.GetProperty("type").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("https://evil.example")]
    [InlineData("http://localhost:8080")]
    [InlineData("https://localhost")]
    [InlineData("null")]
    public async Task Origin_Foreign_Is403(string origin)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/v1/schedules") { Content = Json("{}") };
        request.Headers.Add("Origin", origin);
        var problem = await ServiceApplication.ProblemOf(await service.CreateClient().SendAsync(request), HttpStatusCode.Forbidden);
        Assert.EndsWith("/foreign-origin", problem.GetProperty("type").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("Bearer wrong")]
    [InlineData(Key)]
    public async Task Key_MissingOrWrong_Is401(string? authorization)
    {
        using var guarded = new ServiceApplication(("ScheduleOpt:ApiKey", Key));
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/rate-plans");
        request.Headers.TryAddWithoutValidation("Authorization", authorization);
        var response = await guarded.CreateClient().SendAsync(request);
        await ServiceApplication.ProblemOf(response, HttpStatusCode.Unauthorized);
        Assert.Equal("Bearer", response.Headers.WwwAuthenticate.ToString());
    }

    [Fact]
    public async Task Key_Right_Passes()
    {
        using var guarded = new ServiceApplication(("ScheduleOpt:ApiKey", Key));
        using var client = guarded.CreateClient();
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", Key);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/v1/nothing")).StatusCode);
    }

    [Fact]
    public async Task Key_NotShown_StillTellsHealth()
    {
        using var guarded = new ServiceApplication(("ScheduleOpt:ApiKey", Key));
        Assert.Equal(HttpStatusCode.OK, (await guarded.CreateClient().GetAsync("/health/live")).StatusCode);
    }

    [Fact]
    public async Task Requests_BeyondTheRate_Are429WithRetryAfter()
    {
        using var slow = new ServiceApplication(("Limits:RequestsPerMinute", "2"));
        using var client = slow.CreateClient();
        await client.GetAsync("/v1/nothing");
        await client.GetAsync("/v1/nothing");
        var response = await client.GetAsync("/v1/nothing");
        await ServiceApplication.ProblemOf(response, HttpStatusCode.TooManyRequests);
        Assert.InRange(response.Headers.RetryAfter!.Delta!.Value.TotalSeconds, 1, 60);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/health/live")).StatusCode);
    }

    [Theory]
    [InlineData("/health/live")]
    [InlineData("/v1/nothing")]
    public async Task Answer_OfAnyKind_CarriesSecurityHeaders(string path)
    {
        var headers = (await service.CreateClient().GetAsync(path)).Headers;
        Assert.Equal("nosniff", Assert.Single(headers.GetValues("X-Content-Type-Options")));
        Assert.Equal("default-src 'none'; frame-ancestors 'none'", Assert.Single(headers.GetValues("Content-Security-Policy")));
        Assert.False(headers.Contains("Server"));
        Assert.DoesNotContain(headers, h => h.Key.StartsWith("Access-Control", StringComparison.OrdinalIgnoreCase));
    }

    private static StringContent Json(string text) => new(text, MediaTypeHeaderValue.Parse("application/json"));
}
