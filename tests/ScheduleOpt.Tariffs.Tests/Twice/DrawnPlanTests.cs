using ScheduleOpt.SecondBiller.Tests.Comparing;
using ScheduleOpt.SecondBiller.Tests.Generation;

namespace ScheduleOpt.Tariffs.Tests.Twice;

/// <summary>Drawn plans and series, billed also by the second biller, which is written from the rules of <c>tariffs/README.md</c> alone. Few and short, each a test of its
/// own: the second biller's tests draw thousands.</summary>
public class DrawnPlanTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(0, 300)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void DrawnPlan_BilledTwice_AgreesToTheLastDigit(int seed)
    {
        var result = BilledTwice.Of(Pair.Make(seed));
        Assert.True(result.Outcome is Outcome.Equal or Outcome.BothRefused, $"pair {seed}: {result}");
    }
}
