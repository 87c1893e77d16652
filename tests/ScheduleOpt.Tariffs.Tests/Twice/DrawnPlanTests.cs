using ScheduleOpt.SecondBiller.Tests.Comparing;
using ScheduleOpt.SecondBiller.Tests.Generation;

namespace ScheduleOpt.Tariffs.Tests.Twice;

/// <summary>Drawn plans and series, billed also by the second biller, which is written from the rules of <c>tariffs/README.md</c> alone. Each is a test of its own: the
/// second biller's tests draw thousands.</summary>
public class DrawnPlanTests
{
    // The quickest of the first 900 that use each feature of the generator seven times.
    private static readonly int[] Chosen =
    [
        112, 222, 226, 235, 237, 243, 245, 248, 252, 267, 275, 281, 294, 296, 297, 299, 300, 309, 310, 312, 323, 325, 329, 331, 354, 356,
        361, 369, 373, 374, 379, 382, 383, 384, 387, 397, 400, 411, 447, 467, 485, 497, 505, 507, 530, 561, 565, 577, 605, 618, 664, 693,
        702, 714, 731, 752, 767, 825, 850, 857, 858, 863, 866, 867, 885, 892,
    ];

    public static TheoryData<int> Seeds => [.. Chosen];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void DrawnPlan_BilledTwice_AgreesToTheLastDigit(int seed)
    {
        var result = BilledTwice.Of(Pair.Make(seed));

        Assert.True(result.Outcome == Outcome.Equal, $"pair {seed}: {result}");
    }

    [Fact]
    public void DrawnPlans_Together_UseWhatIsDrawn()
    {
        var features = Chosen.SelectMany(seed => Pair.Make(seed).Features).ToHashSet();

        Assert.True(features.Count > 110, $"Only {features.Count} features are drawn.");
    }
}
