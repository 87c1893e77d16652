using ScheduleOpt.SecondBiller.Tests.Generation;

namespace ScheduleOpt.SecondBiller.Tests;

public class GenerationTests
{
    [Fact]
    public void Pair_MadeTwice_IsTheSame()
    {
        Pair one = Pair.Make(7), two = Pair.Make(7);
        Assert.Equal(one.Plan.ToJsonString(), two.Plan.ToJsonString());
        Assert.Equal(one.Question.Import, two.Question.Import);
    }
}
