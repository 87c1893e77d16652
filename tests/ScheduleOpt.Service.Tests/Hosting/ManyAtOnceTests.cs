using System.Net;

namespace ScheduleOpt.Service.Tests.Hosting;

public sealed class ManyAtOnceTests
{
    [Fact]
    public async Task Schedules_AskedForAllAtOnce_AreAnsweredAlikeOrToldToComeBack()
    {
        using var service = new ServiceApplication(("Limits:SolvesAtOnce", "2"), ("Limits:SolvesWaiting", "2"));
        using var client = service.CreateClient();
        var alone = await Body(await client.PostAsync("/v1/schedules", Requests.Json(Requests.Schedule())));
        var responses = await Task.WhenAll(Enumerable.Range(0, 24).Select(_ =>
            Task.Run(() => client.PostAsync("/v1/schedules", Requests.Json(Requests.Schedule())))));

        Assert.Contains(responses, r => r.StatusCode == HttpStatusCode.OK);
        foreach (var response in responses)
        {
            if (response.StatusCode == HttpStatusCode.OK)
            {
                Assert.Equal(alone, await Body(response));
            }
            else
            {
                Assert.NotNull(response.Headers.RetryAfter);
                await ServiceApplication.ProblemOf(response, HttpStatusCode.ServiceUnavailable);
            }
        }
    }

    private static Task<string> Body(HttpResponseMessage response) => response.Content.ReadAsStringAsync();
}
