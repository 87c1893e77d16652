using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Service.Hosting;
using ScheduleOpt.Service.Jobs;
using ScheduleOpt.Service.Tests.Comparisons;

namespace ScheduleOpt.Service.Tests.Jobs;

public sealed class JobApiTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    [Fact]
    public async Task Job_ThatIsDone_HasTheAnswerOfTheCallItself()
    {
        await using var service = new ServiceApplication();
        using var client = service.CreateClient();
        var accepted = await Ask(client, DecisionApiTests.Small());
        Assert.Equal(HttpStatusCode.Accepted, accepted.StatusCode);
        Assert.Equal("respond-async", accepted.Headers.GetValues("Preference-Applied").Single());

        // The stream ends with the job.
        var events = await Events(client, accepted.Headers.Location!.ToString());
        Assert.Equal("done", events[^1].Name);
        Assert.All(events.SkipLast(1), e => Assert.Equal("progress", e.Name));
        var last = events[^1].Data;
        Assert.Equal(last.GetProperty("total").GetInt32(), last.GetProperty("done").GetInt32());
        Assert.True(last.GetProperty("total").GetInt32() > 0);

        var answer = await client.GetStringAsync(last.GetProperty("result").GetString());
        var direct = await client.PostAsync("/v1/comparisons", Requests.Json(DecisionApiTests.Small()));
        Assert.Equal(await direct.Content.ReadAsStringAsync(), answer);
    }

    [Fact]
    public async Task Job_OfAFaultyRequest_IsRefusedAtOnce()
    {
        await using var service = new ServiceApplication();
        var request = DecisionApiTests.Small();
        request["year"] = "x";
        await ServiceApplication.ProblemOf(await Ask(service.CreateClient(), request), HttpStatusCode.UnprocessableEntity);
        Assert.Equal(0, service.Services.GetRequiredService<JobStore>().Count);
    }

    [Fact]
    public async Task Job_ThatIsCancelled_LeavesNothingBehind()
    {
        await using var service = new ServiceApplication(("Limits:SolvesAtOnce", "1"));
        using var client = service.CreateClient();
        var store = service.Services.GetRequiredService<JobStore>();
        using var begun = new ManualResetEventSlim();
        var ended = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var job = store.Start(UntilCancelled(begun, ended))!;
        Assert.True(begun.Wait(Patience, TestContext.Current.CancellationToken));

        var running = JsonElement.Parse(await client.GetStringAsync($"/v1/jobs/{job.Id}"));
        Assert.Equal(("running", 1, 3), (running.GetProperty("state").GetString(), running.GetProperty("done").GetInt32(), running.GetProperty("total").GetInt32()));
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync($"/v1/jobs/{job.Id}/result")).StatusCode);
        var cancelled = await client.DeleteAsync($"/v1/jobs/{job.Id}");
        Assert.Equal("cancelled", JsonElement.Parse(await cancelled.Content.ReadAsStringAsync()).GetProperty("state").GetString());

        // The work has stopped, its place is free for the next, and neither job nor answer is held.
        await ended.Task.WaitAsync(Patience, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync($"/v1/jobs/{job.Id}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync($"/v1/jobs/{job.Id}/result")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await client.DeleteAsync($"/v1/jobs/{job.Id}")).StatusCode);
        Assert.Equal((0, (WrittenAnswer?)null), (store.Count, job.Answer));
        Assert.Equal(HttpStatusCode.OK, (await client.PostAsync("/v1/bills", Requests.Json(Requests.Bill()))).StatusCode);
    }

    [Fact]
    public async Task Job_BeyondThoseHeld_Is503UntilOneHasEnded()
    {
        await using var service = new ServiceApplication(("Limits:JobsHeld", "1"));
        using var client = service.CreateClient();
        var store = service.Services.GetRequiredService<JobStore>();
        using var begun = new ManualResetEventSlim();
        var ended = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var job = store.Start(UntilCancelled(begun, ended))!;
        var refused = await Ask(client, DecisionApiTests.Small());
        await ServiceApplication.ProblemOf(refused, HttpStatusCode.ServiceUnavailable);
        Assert.True(refused.Headers.RetryAfter is not null);
        store.Cancel(job.Id);

        // An ended one makes room for the next.
        var first = await Ask(client, DecisionApiTests.Small());
        await Events(client, first.Headers.Location!.ToString());
        Assert.Equal(HttpStatusCode.Accepted, (await Ask(client, DecisionApiTests.Small())).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync(first.Headers.Location)).StatusCode);
        Assert.Equal(1, store.Count);
    }

    [Fact]
    public async Task Job_ThatFails_SaysSoAndHoldsNoAnswer()
    {
        await using var service = new ServiceApplication();
        using var client = service.CreateClient();
        var job = service.Services.GetRequiredService<JobStore>().Start((_, _) => throw new InvalidOperationException("broken on purpose"))!;
        Assert.Equal("failed", (await Events(client, $"/v1/jobs/{job.Id}"))[^1].Name);
        Assert.DoesNotContain("on purpose", await client.GetStringAsync($"/v1/jobs/{job.Id}"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync($"/v1/jobs/{job.Id}/result")).StatusCode);
    }

    private static Func<IProgress<YearProgress>, CancellationToken, WrittenAnswer> UntilCancelled(ManualResetEventSlim begun, TaskCompletionSource ended) =>
        (progress, cancellation) =>
        {
            progress.Report(new YearProgress(1, 3));
            begun.Set();
            cancellation.WaitHandle.WaitOne();
            ended.SetResult();
            cancellation.ThrowIfCancellationRequested();
            return WrittenAnswer.Json([]);
        };

    private static async Task<HttpResponseMessage> Ask(HttpClient client, JsonObject request)
    {
        using var message = new HttpRequestMessage(HttpMethod.Post, "/v1/comparisons") { Content = Requests.Json(request) };
        message.Headers.Add("Prefer", "return=minimal, respond-async; wait=1");
        return await client.SendAsync(message);
    }

    private static async Task<(string Name, JsonElement Data)[]> Events(HttpClient client, string address)
    {
        using var message = new HttpRequestMessage(HttpMethod.Get, address);
        message.Headers.Add("Accept", "text/event-stream");
        using var response = await client.SendAsync(message);
        Assert.Equal("text/event-stream", response.Content.Headers.ContentType?.MediaType);

        // WHATWG HTML, server-sent events: lines of a field, an empty line after each event.
        return
        [
            .. (await response.Content.ReadAsStringAsync()).Split("\n\n", StringSplitOptions.RemoveEmptyEntries).Select(e =>
            {
                var lines = e.Split('\n');
                return (lines[0]["event: ".Length..], JsonElement.Parse(lines[1]["data: ".Length..]));
            }),
        ];
    }
}
