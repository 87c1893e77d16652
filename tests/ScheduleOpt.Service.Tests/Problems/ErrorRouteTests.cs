using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using ScheduleOpt.Service.Health;
using ScheduleOpt.Service.Hosting;

namespace ScheduleOpt.Service.Tests.Problems;

/// <summary>Every error is problem details, whoever notices it.</summary>
public sealed class ErrorRouteTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Theory]
    [InlineData("/")]
    [InlineData("/v1")]
    [InlineData("/v1/nothing")]
    [InlineData("/v1/rate-plans/none-such")]
    [InlineData("/openapi/v2.json")]
    public async Task Get_OfNothing_Is404(string path) =>
        await ServiceApplication.ProblemOf(await service.CreateClient().GetAsync(path), HttpStatusCode.NotFound);

    [Fact]
    public async Task Get_WhereOnlyPostIsOffered_Is405WithAllow()
    {
        var response = await service.CreateClient().GetAsync("/v1/schedules");
        await ServiceApplication.ProblemOf(response, HttpStatusCode.MethodNotAllowed);
        Assert.Equal("POST", Assert.Single(response.Content.Headers.Allow));
    }

    [Theory]
    [InlineData("text/html", false)]
    [InlineData("application/xml, image/*", false)]
    [InlineData("application/json;q=0, */*", false)]
    [InlineData("application/json", true)]
    [InlineData("text/html, */*;q=0.1", true)]
    [InlineData("application/*", true)]
    public async Task Accept_DecidesBetween406And200(string accept, bool isWelcome)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/v1/bills") { Content = Requests.Json(Requests.Bill()) };
        request.Headers.TryAddWithoutValidation("Accept", accept);
        var response = await service.CreateClient().SendAsync(request);
        if (isWelcome)
        {
            Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        }
        else
        {
            await ServiceApplication.ProblemOf(response, HttpStatusCode.NotAcceptable);
        }
    }

    [Theory]
    [InlineData("text/plain")]
    [InlineData("application/x-www-form-urlencoded")]
    [InlineData("multipart/form-data; boundary=x")]
    [InlineData("application/json; charset=utf-16")]
    [InlineData(null)]
    public async Task Post_OfAnotherMediaType_Is415(string? type)
    {
        using var content = new ByteArrayContent(Encoding.UTF8.GetBytes(Requests.Schedule().ToJsonString()));
        content.Headers.ContentType = type is null ? null : MediaTypeHeaderValue.Parse(type);
        var response = await service.CreateClient().PostAsync("/v1/schedules", content);
        var problem = await ServiceApplication.ProblemOf(response, HttpStatusCode.UnsupportedMediaType);
        Assert.Contains("application/json", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Post_OfMoreThanOneMebibyte_Is413AndNamesTheLimit(bool saysItsLength)
    {
        var body = Encoding.UTF8.GetBytes(Requests.Schedule().ToJsonString() + new string(' ', 1024 * 1024));
        using HttpContent content = saysItsLength ? Requests.Json(body) : new StreamContent(new UnknownLength(body));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        var problem = await ServiceApplication.ProblemOf(
            await service.CreateClient().PostAsync("/v1/schedules", content), HttpStatusCode.RequestEntityTooLarge);
        Assert.Contains("1,048,576 bytes", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_OfExactlyOneMebibyte_IsRead()
    {
        var text = Requests.Schedule().ToJsonString();
        var response = await service.CreateClient().PostAsync(
            "/v1/schedules", Requests.Json(text + new string(' ', (1024 * 1024) - Encoding.UTF8.GetByteCount(text))));
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
    }

    [Fact]
    public async Task Failure_InsideTheService_Is500WithoutItsCause()
    {
        using var broken = new ServiceApplication
        {
            Configure = builder => builder.ConfigureTestServices(services => services.AddSingleton<IReadinessCheck, Failing>()),
        };
        var problem = await ServiceApplication.ProblemOf(
            await broken.CreateClient().GetAsync("/health/ready"), HttpStatusCode.InternalServerError);
        Assert.DoesNotContain("secret cause", problem.GetRawText(), StringComparison.Ordinal);
        Assert.False(string.IsNullOrEmpty(problem.GetProperty("traceId").GetString()));
    }

    [Fact]
    public async Task Solve_WhenEverySolverIsBusy_Is503WithRetryAfter()
    {
        using var busy = new ServiceApplication(("Limits:SolvesAtOnce", "1"), ("Limits:SolvesWaiting", "0"));
        using var client = busy.CreateClient();
        var gate = busy.Services.GetRequiredService<SolveGate>();
        using (await gate.EnterAsync(CancellationToken.None))
        {
            var response = await client.PostAsync("/v1/bills", Requests.Json(Requests.Bill()));
            await ServiceApplication.ProblemOf(response, HttpStatusCode.ServiceUnavailable);
            Assert.NotNull(response.Headers.RetryAfter);
        }

        Assert.Equal(HttpStatusCode.OK, (await client.PostAsync("/v1/bills", Requests.Json(Requests.Bill()))).StatusCode);
    }

    private sealed class Failing : IReadinessCheck
    {
        public string Name => "failing";

        public string Check() => throw new InvalidCastException("secret cause");
    }

    // A stream that can't be measured is sent in chunks, without a Content-Length.
    private sealed class UnknownLength(byte[] body) : MemoryStream(body)
    {
        public override bool CanSeek => false;
    }
}
