using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;

namespace ScheduleOpt.Service.Tests.Comparisons;

public sealed class ReportApiTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Report_AcceptedAsHtml_ComesUnderASandboxWithoutScript()
    {
        var response = await Post("text/html");
        Assert.Equal("text/html", response.Content.Headers.ContentType?.MediaType);
        var policy = response.Headers.GetValues("Content-Security-Policy").Single();
        Assert.StartsWith("sandbox;", policy, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("allow-scripts", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("script-src", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", response.Headers.GetValues("X-Content-Type-Options").Single());
        var page = await response.Content.ReadAsStringAsync();
        Assert.StartsWith("<!DOCTYPE html>", page, StringComparison.Ordinal);
        Assert.Contains("Disclosure", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Table_AcceptedAsCsv_HasALineForEachCell()
    {
        var response = await Post("text/csv");
        Assert.Equal("text/csv", response.Content.Headers.ContentType?.MediaType);
        var lines = (await response.Content.ReadAsStringAsync()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(1 + (3 * 2), lines.Length);
        Assert.StartsWith("set_up,rate_plan,behaviour,rank,", lines[0], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("*/*", "application/json")]
    [InlineData("text/html;q=0.5, application/json", "application/json")]
    [InlineData("text/*;q=0.9, application/json;q=0.1, text/html;q=0", "text/csv")]
    public async Task Answer_OfSeveralAccepted_IsTheMostWanted(string accept, string type) =>
        Assert.Equal(type, (await Post(accept)).Content.Headers.ContentType?.MediaType);

    [Fact]
    public async Task Answer_OfATypeThatIsNotOffered_Is406() =>
        Assert.Equal(HttpStatusCode.NotAcceptable, (await Post("application/pdf")).StatusCode);

    [Fact]
    public async Task Fault_WithHtmlAccepted_IsStillAProblem()
    {
        var request = DecisionApiTests.Small();
        request["year"] = "<script>";
        using var message = new HttpRequestMessage(HttpMethod.Post, "/v1/comparisons") { Content = Requests.Json(request) };
        message.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("text/html"));
        var problem = await ServiceApplication.ProblemOf(await service.CreateClient().SendAsync(message), HttpStatusCode.UnprocessableEntity);
        Assert.Equal(JsonValueKind.Array, problem.GetProperty("errors").ValueKind);
    }

    private async Task<HttpResponseMessage> Post(string accept)
    {
        using var message = new HttpRequestMessage(HttpMethod.Post, "/v1/comparisons") { Content = Requests.Json(DecisionApiTests.Small()) };
        message.Headers.TryAddWithoutValidation("Accept", accept);
        return await service.CreateClient().SendAsync(message);
    }
}
