using System.Net;
using System.Text.Json.Nodes;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests.Hostile;

/// <summary>Every documented request without one of its fields, or with one of another type: an answer or a refusal, never a failure. What depends on the field must not be read as if it were there.</summary>
public sealed class TopLevelFieldTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    private static readonly string[] Values = ["null", "true", "7", "\"x\"", "[]", "{}"];

    // The fields on which the reading of others depends.
    private static readonly string[] Clocks = ["timeZone", "asOf", "year", "ratePlan"];

    public static TheoryData<string> Examples =>
    [
        "schedule", "schedule-hourly-prices", "schedule-two-cars", "comparison", "comparison-choices", "comparison-decision", "comparison-winters",
        "bill", "bill-solar-home", "bill-critical-peak",
    ];

    [Theory]
    [MemberData(nameof(Examples))]
    public async Task Request_WithoutAField_IsAnsweredOrRefused(string example)
    {
        foreach (var name in Names(example))
        {
            var request = Example(example);
            request.Remove(name);
            await AssertNoFailure(example, request, $"without {name}");
        }
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public async Task Request_WithAFieldOfAnotherType_IsRefused(string example)
    {
        foreach (var name in Names(example))
        {
            foreach (var value in Values.Select(v => JsonNode.Parse(v)))
            {
                var request = Example(example);
                if (value?.GetValueKind() != request[name]!.GetValueKind())
                {
                    request[name] = value;
                    Assert.NotEqual(HttpStatusCode.OK, await AssertNoFailure(example, request, $"{name}: {value?.ToJsonString() ?? "null"}"));
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public async Task Request_WithoutAClockAndAnotherField_IsRefused(string example)
    {
        foreach (var clock in Clocks.Intersect(Names(example)))
        {
            foreach (var name in Names(example).Where(n => n != clock))
            {
                var request = Example(example);
                request[clock] = "none-such";
                request.Remove(name);
                Assert.NotEqual(HttpStatusCode.OK, await AssertNoFailure(example, request, $"{clock} faulty, without {name}"));
            }
        }
    }

    private static string[] Names(string example) => [.. Example(example).Select(p => p.Key)];

    // Answers are not what is looked at: they may be quick ones.
    private static JsonObject Example(string name)
    {
        var request = (JsonObject)ApiSchemas.Example(name);
        if (request["behaviours"] is not null)
        {
            request["behaviours"] = new JsonArray("onArrival");
        }

        if (request["options"]?["uncertainty"] is not null)
        {
            request["options"]!["uncertainty"] = false;
        }

        return request;
    }

    private async Task<HttpStatusCode> AssertNoFailure(string example, JsonObject request, string what)
    {
        using var client = service.CreateClient();
        var response = await client.PostAsync($"/v1/{example.Split('-')[0]}s", Requests.Json(request));
        Assert.True(
            response.StatusCode is HttpStatusCode.OK or HttpStatusCode.BadRequest or HttpStatusCode.UnprocessableEntity,
            $"{example}, {what}: {response.StatusCode} {await response.Content.ReadAsStringAsync()}");
        return response.StatusCode;
    }
}
