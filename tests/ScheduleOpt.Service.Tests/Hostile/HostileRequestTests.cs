using System.Diagnostics;
using System.Net;

namespace ScheduleOpt.Service.Tests.Hostile;

public sealed class HostileRequestTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    private const int Count = 300;
    private const int Seed = 20260114;

    [Fact]
    public async Task Requests_SpoiltInThreeHundredWays_AreEachRefusedWithTheFieldNamedWithinFiveSeconds()
    {
        using var client = service.CreateClient();
        var random = new Random(Seed);
        for (var i = 0; i < Count; i++)
        {
            var (body, pointer, what) = Mutations.Draw(random);
            var clock = Stopwatch.StartNew();
            var response = await client.PostAsync("/v1/schedules", Requests.Json(body));
            Assert.True(clock.Elapsed < TimeSpan.FromSeconds(5), $"{i}, {what}: took {clock.Elapsed}.");
            Assert.True((int)response.StatusCode is >= 400 and < 500, $"{i}, {what}: {response.StatusCode}");
            var problem = await ServiceApplication.ProblemOf(response, response.StatusCode);
            if (pointer is null)
            {
                // Not a field but the body: the place or the limit is named.
                Assert.Matches("byte|nested 32 deep|UTF-8|1 MiB", problem.GetProperty("detail").GetString());
            }
            else
            {
                Assert.Equal(HttpStatusCode.UnprocessableEntity, response.StatusCode);
                Assert.True(
                    problem.GetProperty("errors").EnumerateArray().Any(e =>
                        e.GetProperty("pointer").GetString()!.StartsWith(pointer, StringComparison.Ordinal)),
                    $"{i}, {what}: {problem.GetRawText()[..Math.Min(600, problem.GetRawText().Length)]}");
            }
        }
    }
}
