using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests.Schedules;

/// <summary>The same schedule as JSON, as a calendar, and as tables.</summary>
public sealed class ScheduleMediaTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Theory]
    [InlineData("application/json", "application/json")]
    [InlineData("*/*", "application/json")]
    [InlineData("text/calendar", "text/calendar")]
    [InlineData("text/csv", "text/csv")]
    [InlineData("text/*", "text/calendar")]
    [InlineData("text/csv, application/json;q=0.5", "text/csv")]
    [InlineData("text/csv;q=0.2, application/json;q=0.5", "application/json")]
    [InlineData("text/*;q=0.9, text/calendar;q=0, application/json;q=0.1", "text/csv")]
    public async Task Answer_IsOfTheTypeLikedBest(string accept, string expected)
    {
        var response = await Post(accept, "/v1/schedules");
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Equal(expected, response.Content.Headers.ContentType!.MediaType);
        Assert.Contains("Accept", response.Headers.Vary);
    }

    [Theory]
    [InlineData("text/html")]
    [InlineData("text/calendar;q=0, text/csv;q=0, application/json;q=0")]
    public async Task Answer_OfATypeThatIsNotOffered_Is406(string accept)
    {
        var problem = await ServiceApplication.ProblemOf(await Post(accept, "/v1/schedules"), HttpStatusCode.NotAcceptable);
        Assert.Contains("text/calendar", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("text/csv", "/v1/schedules?rows=days")]
    [InlineData("application/json", "/v1/schedules?rows=windows")]
    public async Task Rows_ThatMeanNothing_Are400(string accept, string path) =>
        await ServiceApplication.ProblemOf(await Post(accept, path), HttpStatusCode.BadRequest);

    [Fact]
    public async Task Tables_AndCalendar_HoldTheWindowsOfTheJson()
    {
        var json = JsonElement.Parse(await (await Post("application/json", "/v1/schedules")).Content.ReadAsStringAsync());
        var windows = json.GetProperty("cars").EnumerateArray().SelectMany(c => c.GetProperty("windows").EnumerateArray()).ToArray();
        var table = (await (await Post("text/csv", "/v1/schedules?rows=windows")).Content.ReadAsStringAsync()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        var calendar = (await (await Post("text/calendar", "/v1/schedules")).Content.ReadAsStringAsync()).Replace("\r\n ", "", StringComparison.Ordinal);

        Assert.NotEmpty(windows);
        Assert.Equal(windows.Length, table.Length - 1);
        foreach (var window in windows)
        {
            var uid = window.GetProperty("uid").GetString()!;
            Assert.Contains(table, row => row.Contains($",{uid},", StringComparison.Ordinal) && row.Contains(window.GetProperty("start").GetString()!, StringComparison.Ordinal));
            Assert.Contains($"\r\nUID:{uid}\r\n", calendar, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Calendar_AskedAgainWithItsOwnWindows_IsTheSame()
    {
        var body = ApiSchemas.Example("schedule");
        using var client = service.CreateClient();
        var first = JsonElement.Parse(await (await client.PostAsync("/v1/schedules", Requests.Json(body))).Content.ReadAsStringAsync());
        var calendar = await (await Post("text/calendar", "/v1/schedules", body)).Content.ReadAsStringAsync();
        var windows = new JsonArray([.. first.GetProperty("windows").EnumerateArray().Select(w => (JsonNode)new JsonObject
        {
            ["start"] = w.GetProperty("start").GetString(),
            ["end"] = w.GetProperty("end").GetString(),
            ["currentA"] = w.GetProperty("currentA").GetDouble(),
            ["uid"] = w.GetProperty("uid").GetString(),
            ["sequence"] = w.GetProperty("sequence").GetInt32(),
        })]);
        body["options"]!["previous"] = new JsonObject { ["windows"] = windows };

        Assert.Equal(calendar, await (await Post("text/calendar", "/v1/schedules", body)).Content.ReadAsStringAsync());
    }

    private Task<HttpResponseMessage> Post(string accept, string path, JsonNode? body = null)
    {
        var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = Requests.Json(body ?? ApiSchemas.Example("schedule-two-cars")) };
        request.Headers.Accept.ParseAdd(accept);
        return service.CreateClient().SendAsync(request);
    }
}
