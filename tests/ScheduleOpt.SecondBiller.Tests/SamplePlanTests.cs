using System.Text.Json.Nodes;
using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.SecondBiller.Tests.Comparing;

namespace ScheduleOpt.SecondBiller.Tests;

/// <summary>The plans that travel with the program, read from their YAML by both.</summary>
public class SamplePlanTests
{
    public static TheoryData<string> Ids => [.. RatePlanLibrary.Ids];

    [Theory]
    [MemberData(nameof(Ids))]
    public void SamplePlan_OverAYear_CostsTheSameTwice(string id)
    {
        var yaml = Text(id);
        var document = PlanText.Read(yaml);
        var random = new Random(2026);
        var start = DateTimeZoneProviders.Tzdb[document["timeZone"]!.GetValue<string>()].AtStartOfDay(new LocalDate(2026, 6, 1)).ToInstant();
        var question = new Question
        {
            Start = start,
            Interval = Duration.FromHours(1),
            Import = [.. Enumerable.Range(0, 8760).Select(_ => random.NextInt64(3_000_000))],
            Export = [.. Enumerable.Range(0, 8760).Select(_ => random.NextInt64(1_500_000))],
            ServiceKw = 9,
            Prices = Series(document).Distinct().ToDictionary(
                name => name,
                _ => new HourlyPrices(start, Duration.FromHours(1), [.. Enumerable.Range(0, 8784).Select(_ => (decimal?)random.Next(-300, 3000) / 10_000m)])),
        };

        var result = BilledTwice.Of(RatePlanLibrary.Find(id)!, document, question);
        Assert.True(result.Outcome == Outcome.Equal, $"{id}: {result}");
    }

    private static IEnumerable<string> Series(JsonNode? node) => node switch
    {
        JsonObject item => item.SelectMany(field => field.Key == "hourlyPrice" ? [field.Value!["series"]!.GetValue<string>()] : Series(field.Value)),
        JsonArray list => list.SelectMany(Series),
        _ => [],
    };

    private static string Text(string id)
    {
        using var stream = typeof(RatePlanLibrary).Assembly.GetManifestResourceStream($"tariffs/{id}.yaml")!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
