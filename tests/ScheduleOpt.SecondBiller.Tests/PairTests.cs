using System.Text.Json;
using ScheduleOpt.SecondBiller.Tests.Comparing;
using ScheduleOpt.SecondBiller.Tests.Generation;

namespace ScheduleOpt.SecondBiller.Tests;

/// <summary>Random rate plans and series, billed by both billers.</summary>
public class PairTests(ITestOutputHelper output)
{
    [Fact]
    public void Pairs_BilledTwice_AgreeToTheLastDigit()
    {
        var first = Count("SCHEDULEOPT_BILL_FIRST", 0);
        var results = Enumerable.Range(first, Count("SCHEDULEOPT_BILL_PAIRS", 1000)).AsParallel()
            .Select(seed => (Seed: seed, Comparison: Compare(seed))).ToList();
        if (results.Count >= 1000)
        {
            // What the drawn plans use; a feature that none uses is a hole in the generator.
            var features = Enumerable.Range(first, 1000).SelectMany(seed => Pair.Make(seed).Features).GroupBy(feature => feature).OrderBy(group => group.Key).ToList();
            output.WriteLine($"{features.Count} features: {string.Join(", ", features.Select(group => $"{group.Key} {group.Count()}"))}");
            Assert.True(features.Count > 110, $"Only {features.Count} features are drawn.");
        }

        foreach (var group in results.GroupBy(result => result.Comparison.Outcome))
        {
            output.WriteLine($"{group.Key}: {group.Count()}");
        }

        if (Environment.GetEnvironmentVariable("SCHEDULEOPT_BILL_REPORT") is { } path)
        {
            File.WriteAllLines(path, results.Where(result => result.Comparison.Outcome != Outcome.Equal)
                .Select(result => $"{result.Comparison.Outcome} {result.Seed}: {result.Comparison.Why}"));
        }

        if (results.Count == 1)
        {
            // To look into one pair: its number as SCHEDULEOPT_BILL_FIRST, and SCHEDULEOPT_BILL_PAIRS=1.
            var pair = Pair.Make(first);
            output.WriteLine(pair.Plan.ToJsonString(new JsonSerializerOptions { WriteIndented = false }));
            output.WriteLine($"{pair.Question with { Import = [], Export = null }} {pair.Question.Import.Length} intervals: {string.Join(' ', pair.Question.Import.Take(200))}");
            output.WriteLine($"choices {string.Join(',', pair.Question.Choices)} readings {string.Join(' ', pair.Question.ReadingDates ?? [])} events {string.Join(' ', pair.Question.Events)}");
            output.WriteLine($"export {string.Join(' ', pair.Question.Export ?? [])}");
            output.WriteLine($"{results[0].Comparison}");
        }

        var different = results.Where(result => result.Comparison.Outcome is Outcome.Different or Outcome.SecondRefused or Outcome.FirstRefused or Outcome.PlanRefused).ToList();
        Assert.True(different.Count == 0, $"{different.Count} of {results.Count}; {string.Join(
            '\n', different.Take(10).Select(result => $"pair {result.Seed}: {result.Comparison.Outcome} {result.Comparison.Why}"))}");
    }

    private static BilledTwice Compare(int seed) => BilledTwice.Of(Pair.Make(seed));

    internal static int Count(string variable, int otherwise) =>
        int.TryParse(Environment.GetEnvironmentVariable(variable), out var count) ? count : otherwise;
}
