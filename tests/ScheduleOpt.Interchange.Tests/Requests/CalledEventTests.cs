using System.Text.Json.Nodes;
using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Interchange.Tests.Requests;

public sealed class CalledEventTests
{
    [Theory]
    [InlineData("critical peak", """{"date":"2026-07-28"}""", "2026-07-28T14:00", "2026-07-28T20:00")]
    [InlineData("grid warning", """{"date":"2026-07-28"}""", "2026-07-28T00:00", "2026-07-29T00:00")]
    [InlineData("critical peak", """{"from":"2026-07-28T15:00:00-04:00","to":"2026-07-28T23:00:00Z"}""", "2026-07-28T15:00", "2026-07-28T19:00")]
    public void Event_ByItsDateOrItsTimes_HasTheHoursOfThePlan(string kind, string text, string from, string to)
    {
        var called = Assert.Single(Read("model-county-peak-aware", kind, text).Value.Input.Events[kind]);
        Assert.Equal(Local(from), called.From);
        Assert.Equal(Local(to), called.To);
    }

    [Fact]
    public void Event_ByTheDateOfAKindWithTwoWindows_MustSayItsTimes()
    {
        var document = (JsonObject)JsonNode.Parse(RatePlanLibrary.FindJson("model-county-peak-aware")!)!;
        document["events"]![0]!["allowed"]!["windows"] = JsonNode.Parse("""[{"from":"06:00","to":"09:00"},{"from":"14:00","to":"20:00"}]""");
        var fault = Assert.Single(Read(document, "critical peak", """{"date":"2026-07-28"}""").Faults);
        Assert.Equal("#/events/critical%20peak/0", fault.Pointer);
        Assert.Contains("give from and to", fault.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void Event_WithABaseline_KeepsItExactly()
    {
        var called = Assert.Single(Read("model-county-peak-aware", "saving hours", """{"from":"2026-07-28T17:00","to":"2026-07-28T20:00","baselineKwh":"6.4000001","baselineAdjustmentKwh":-0.5}""")
            .Value.Input.Events["saving hours"]);
        Assert.Equal(new CalledEvent(Local("2026-07-28T17:00"), Local("2026-07-28T20:00"), 6.4000001m, -0.5m), called);
    }

    private static LocalDateTime Local(string text) => NodaTime.Text.LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Parse(text).Value;

    private static Reading<BillRequest> Read(JsonNode plan, string kind, string text) => BillRequestReader.Read(JsonText.Read(new JsonObject
    {
        ["ratePlan"] = plan,
        ["series"] = JsonNode.Parse("""{"start":"2026-07-28T00:00","intervalMinutes":1440,"energyKwh":[20]}"""),
        ["events"] = new JsonObject { [kind] = new JsonArray(JsonNode.Parse(text)) },
    }.ToJsonString()).Value);
}
