using System.Diagnostics;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests.Hostile;

/// <summary>Any value anywhere: what comes back is an answer or a refusal, never a failure, and never late.</summary>
public sealed class RandomValueTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    private static readonly string[] Values =
    [
        "null", "true", "{}", "[]", "[[]]", "\"\"", "\"x\"", "0", "-0.0", "-1", "1", "0.5", "1e-300", "1e15", "1e300", "2147483648",
        "9223372036854775808", "0.1", "6", "12", "60", "100", "300", "\"2026-01-15T07:30\"", "\"2026-03-08T02:30\"", "\"2026-11-01T01:30\"",
        "\"2099-12-31T23:59\"", "\"1970-01-01T00:00\"", "\"America/Chicago\"", "\"Australia/Lord_Howe\"", "\"Pacific/Apia\"", "\"FREQ=DAILY\"",
        "\"FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29\"", "\"FREQ=WEEKLY;COUNT=2000000000\"", "[1,2,3]", "\"mi\"",
    ];

    [Theory]
    [InlineData("schedule", 250)]
    [InlineData("comparison", 120)]
    [InlineData("bill", 250)]
    [InlineData("bill-solar-home", 250)]
    [InlineData("bill-critical-peak", 250)]
    [InlineData("schedule-hourly-prices", 200)]
    [InlineData("comparison-choices", 60)]
    [InlineData("comparison-decision", 60)]
    [InlineData("comparison-winters", 40)]
    [InlineData("schedule-two-cars", 150)]
    public async Task Request_WithAnyValueAnywhere_IsAnsweredOrRefused(string example, int count)
    {
        using var client = service.CreateClient();
        var random = new Random(19700101);
        for (var i = 0; i < count; i++)
        {
            var request = Small(example);
            for (var edits = random.Next(1, 4); edits > 0; edits--)
            {
                Edit(request, random);
            }

            await AssertNoFailure(client, $"/v1/{example.Split('-')[0]}s", Encoding.UTF8.GetBytes(request.ToJsonString()), i);
        }
    }

    [Fact]
    public async Task RatePlan_WithAnyValueAnywhere_IsAnsweredOrRefused()
    {
        using var client = service.CreateClient();
        var random = new Random(42);
        for (var i = 0; i < 300; i++)
        {
            var request = Small(i % 2 == 0 ? "bill" : "schedule");
            var document = JsonNode.Parse(RatePlanLibrary.FindJson(RatePlanLibrary.Ids[i % RatePlanLibrary.Ids.Count])!)!;
            Edit(document, random);
            request["ratePlan"] = document;
            await AssertNoFailure(client, i % 2 == 0 ? "/v1/bills" : "/v1/schedules", Encoding.UTF8.GetBytes(request.ToJsonString()), i);
        }
    }

    [Fact]
    public async Task Body_WithBytesChanged_IsAnsweredOrRefused()
    {
        using var client = service.CreateClient();
        var random = new Random(7);
        for (var i = 0; i < 300; i++)
        {
            var body = Encoding.UTF8.GetBytes(Small("schedule").ToJsonString());
            for (var edits = random.Next(1, 5); edits > 0; edits--)
            {
                body[random.Next(body.Length)] = (byte)random.Next(256);
            }

            await AssertNoFailure(client, "/v1/schedules", body, i);
        }
    }

    private static async Task AssertNoFailure(HttpClient client, string path, byte[] body, int i)
    {
        var clock = Stopwatch.StartNew();
        var response = await client.PostAsync(path, Requests.Json(body));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(
            response.StatusCode is HttpStatusCode.OK or HttpStatusCode.BadRequest or HttpStatusCode.UnprocessableEntity,
            $"{i}: {response.StatusCode} {text}\n{Encoding.UTF8.GetString(body)}");
        Assert.True(clock.Elapsed < TimeSpan.FromSeconds(5), $"{i}: took {clock.Elapsed}\n{Encoding.UTF8.GetString(body)}");
    }

    private static JsonObject Small(string example)
    {
        var request = (JsonObject)ApiSchemas.Example(example);
        if (example == "comparison")
        {
            request["setUps"]!.AsArray().RemoveAt(0);
            request["behaviours"] = new JsonArray("fixedStart", "leastCostKnownAhead");
            request["ratePlans"]!.AsArray().RemoveAt(0);
            request["options"]!["gridMinutes"] = 60;
        }
        else if (example == "comparison-decision")
        {
            request["behaviours"] = new JsonArray("onArrival");
            request["options"]!["uncertainty"] = false;
        }

        return request;
    }

    private static void Edit(JsonNode root, Random random)
    {
        var places = new List<JsonNode>();
        Collect(root, places);
        if (places.Count == 0)
        {
            return;
        }

        var place = places[random.Next(places.Count)];
        place.ReplaceWith(JsonNode.Parse(Values[random.Next(Values.Length)]) ?? JsonValue.Create("null"));
    }

    private static void Collect(JsonNode node, List<JsonNode> places)
    {
        IEnumerable<JsonNode?> children = node switch
        {
            JsonObject o => o.Select(p => p.Value),
            JsonArray a => a,
            _ => [],
        };
        foreach (var child in children.OfType<JsonNode>())
        {
            places.Add(child);
            Collect(child, places);
        }
    }
}
