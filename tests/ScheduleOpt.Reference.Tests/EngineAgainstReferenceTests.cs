using System.Collections.Concurrent;

namespace ScheduleOpt.Reference.Tests;

/// <summary>The engine against an independent model in another language with another solver, on random requests.</summary>
public sealed class EngineAgainstReferenceTests
{
    private const int RequestsPerMutant = 200;
    private static readonly ConcurrentDictionary<string, EngineAnswer> Answers = new(StringComparer.Ordinal);

    [Fact]
    public void Engine_RandomRequests_FindsTheReferenceOptimum()
    {
        using var reference = ReferenceProcess.StartOrSkip();
        var failures = new List<string>();
        var requests = RandomRequests.MakeOrSkip(RandomRequests.Count);
        for (var i = 0; i < requests.Count; i++)
        {
            var difference = Agreement.Difference(
                Engine(requests[i]),
                reference.Answer(requests[i]),
                RandomRequests.AsksForTimeOrder(requests[i]));
            if (difference is not null)
            {
                failures.Add($"request {i} of seed {RandomRequests.Seed}: {difference}");
            }
        }

        Assert.True(failures.Count == 0, $"{failures.Count} of {requests.Count} differ.\n{string.Join('\n', failures.Take(20))}");
    }

    [Theory]
    [MemberData(nameof(Mutants))]
    public void Engine_DeliberatelyWrongReference_DisagreesSomewhere(string mutant)
    {
        using var reference = ReferenceProcess.StartOrSkip();
        var told = RandomRequests.MakeOrSkip(RequestsPerMutant).Any(request =>
        {
            var wrong = reference.Answer(request, mutant);
            return wrong.Error is null
                && Agreement.Difference(Engine(request), wrong, RandomRequests.AsksForTimeOrder(request)) is not null;
        });

        Assert.True(told, $"No request tells the engine from the mutant {mutant}.");
    }

    public static TheoryData<string> Mutants() => [.. MutantNames.All];

    // Every mutant is compared on the same requests: the engine works each out once.
    private static EngineAnswer Engine(string requestJson) => Answers.GetOrAdd(requestJson, EngineUnderTest.Answer);
}
