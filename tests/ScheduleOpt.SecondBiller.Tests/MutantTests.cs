using System.Text;
using ScheduleOpt.SecondBiller.Tests.Comparing;
using ScheduleOpt.SecondBiller.Tests.Generation;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.SecondBiller.Tests;

/// <summary>Damaged documents and readings: a clear error, or acceptance in which both billers agree; nothing else, and in bounded memory.</summary>
public class MutantTests(ITestOutputHelper output)
{
    private const long MostBytes = 200_000_000;

    [Fact]
    public void Mutants_ReadAndBilled_AreRefusedClearlyOrAgree()
    {
        var results = Enumerable.Range(PairTests.Count("SCHEDULEOPT_BILL_FIRST", 0), PairTests.Count("SCHEDULEOPT_BILL_MUTANTS", 500)).AsParallel()
            .Select(seed => (Seed: seed, Result: Result(seed))).ToList();
        foreach (var group in results.GroupBy(result => result.Result.Kind))
        {
            output.WriteLine($"{group.Key}: {group.Count()}");
        }

        var wrong = results.Where(result => result.Result.Kind == "wrong").ToList();
        if (Environment.GetEnvironmentVariable("SCHEDULEOPT_BILL_REPORT") is { } path)
        {
            File.WriteAllLines(path, wrong.Select(result => $"{result.Seed}: {result.Result.Why}"));
        }

        Assert.True(wrong.Count == 0, $"{wrong.Count} of {results.Count}; {string.Join('\n', wrong.Take(10).Select(result => $"mutant {result.Seed}: {result.Result.Why}"))}");
        // A test that only refuses, or only accepts, would show little.
        Assert.Contains(results, result => result.Result.Kind == "agrees");
        Assert.Contains(results, result => result.Result.Kind == "document refused");
        Assert.Contains(results, result => result.Result.Kind == "input refused");
    }

    private static (string Kind, string Why) Result(int seed)
    {
        var pair = Pair.Make(seed / 4 + 100_000);
        var draw = new Draw(seed);
        var isDocument = draw.Chance(0.7);
        var text = isDocument ? Mutation.OfDocument(pair.Plan, draw) : pair.Plan.ToJsonString();
        var readings = isDocument ? null : Mutation.OfReadings(pair.Question, draw);
        try
        {
            var task = Task.Run(() => Bill(text, pair.Question, readings));
            return task.Wait(TimeSpan.FromMinutes(1)) ? task.Result : ("wrong", $"more than a minute\n{text}\n{readings}");
        }
        catch (Exception exception)
        {
            return ("wrong", $"{exception}\n{(isDocument ? text[..Math.Min(3000, text.Length)] : readings)}");
        }
    }

    private static (string Kind, string Why) Bill(string text, Question question, Readings? readings)
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        var reading = FirstBiller.Read(text);
        if (!reading.IsRead)
        {
            return reading.Faults.All(fault => fault.Pointer.StartsWith('#') && fault.Rule.Length > 0) ? ("document refused", "") : ("wrong", $"unclear: {reading.Faults[0]}");
        }

        Bill bill;
        try
        {
            (bill, question) = readings is null ? (FirstBiller.Bill(reading.Value, question), question) : FirstBiller.Bill(reading.Value, readings);
        }
        catch (ArgumentException exception)
        {
            return exception.Message.Length > 10 ? ("input refused", "") : ("wrong", $"unclear: {exception.Message}");
        }

        if (GC.GetAllocatedBytesForCurrentThread() - before > MostBytes)
        {
            return ("wrong", "more than 200 MB allocated");
        }

        try
        {
            var second = NaiveBiller.Bill(PlanText.Read(text), question);
            return BilledTwice.Difference(bill, second) is { } difference ? ("wrong", difference + "\n" + text + readings) : ("agrees", "");
        }
        catch (RefusedException exception)
        {
            return ("wrong", $"the second biller refuses: {exception.Message}");
        }
    }
}
