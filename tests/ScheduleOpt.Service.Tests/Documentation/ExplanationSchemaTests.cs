using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using NodaTime;
using ScheduleOpt.Comparison.Tonight.Explanations;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests.Documentation;

/// <summary>Parts of an answer that only some nights have, written from answers filled in here.</summary>
public sealed class ExplanationSchemaTests
{
    private static readonly CarExplanation Everything = new(
        [new(Instant.FromUtc(2026, 1, 15, 13, 0), BindingKind.Price, "Other hours are dearer."), new(Instant.FromUtc(2026, 1, 16, 13, 0), BindingKind.Household, "The circuit is full.")],
        [new(Instant.FromUtc(2026, 1, 15, 3, 0), "The cheapest hours before Work.")],
        new(new(0.125, 0), [new(Instant.FromUtc(2026, 1, 15, 4, 0), Instant.FromUtc(2026, 1, 15, 5, 0))], "An hour later."),
        new(new(0.12, 1), null),
        new(0.5, 0),
        null,
        new(60, new(-1.25, 0)));

    [Theory]
    [InlineData("schedule", "ScheduleAnswer")]
    [InlineData("schedule-two-cars", "HouseholdAnswer")]
    public void Answer_WithEveryPart_KeepsItsSchema(string example, string schema)
    {
        var answer = Filled(example, Everything);
        var json = Encoding.UTF8.GetString(ScheduleAnswerWriter.Write(answer));
        SchemaTests.AssertKeeps(schema, json);

        var root = JsonElement.Parse(json);
        var car = root.TryGetProperty("cars", out var cars) ? cars[0] : root;
        Assert.Equal("0.50", car.GetProperty("explanation").GetProperty("anHourEarlier").GetProperty("cost").GetProperty("amount").GetString());
        Assert.Equal(JsonValueKind.Null, car.GetProperty("explanation").GetProperty("tenPercentMore").ValueKind);
        Assert.Equal(90, car.GetProperty("help")[0].GetProperty("plugInEarlierMinutes").GetDouble());
        Assert.Equal("23:05", car.GetProperty("timers").GetProperty("startTime").GetProperty("at").GetString());
        Assert.Equal([32.0, 16.0], car.GetProperty("windows")[0].GetProperty("steps").EnumerateArray().Select(s => s.GetProperty("currentA").GetDouble()));
        Assert.Equal("1.40", root.GetProperty("carbonCost").GetProperty("amount").GetString());
        Assert.Equal("integers", root.GetProperty("route").GetString());
    }

    [Fact]
    public void Answer_WithNothingToSay_KeepsItsSchema() => SchemaTests.AssertKeeps(
        "ScheduleAnswer",
        Encoding.UTF8.GetString(ScheduleAnswerWriter.Write(Filled("schedule", new([], [], null, null, null, null, null)))));

    private static ScheduleAnswer Filled(string example, CarExplanation explanation)
    {
        var request = ApiSchemas.Example(example);
        request["options"]!["chargingProfile"] = JsonNode.Parse("""{"version":"2.1","unit":"W"}""");
        var answer = ScheduleAnswering.Answer(ScheduleRequestReader.Read(JsonText.Read(request.ToJsonString()).Value).Value);
        var car = answer.Cars[0];
        var window = car.Windows[0];
        var middle = window.Start + Duration.FromMinutes(20);
        var changing = window with
        {
            Steps = [new(window.Start, middle, 32, 2, 0.2), new(middle, window.End, 16, 3, 0.3)],
        };
        return answer with
        {
            CarbonCost = 1.4,
            Route = SolveRoute.Integers,
            Cars =
            [
                car with
                {
                    Windows = [changing, .. car.Windows.Skip(1)],
                    Explanation = explanation,
                    Help = [new(car.Departures[0].Departure, Duration.FromMinutes(89.5), 25, 20, null, 1.5)],
                    Timers = new(new(new LocalTime(23, 5), 32, 0.8, 0.4, 0.1, 0), null, new(16, 0, 0, 0), "The import limit is in its way."),
                },
                .. answer.Cars.Skip(1),
            ],
        };
    }
}
