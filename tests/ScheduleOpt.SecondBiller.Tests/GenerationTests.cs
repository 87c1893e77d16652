using ScheduleOpt.SecondBiller.Tests.Generation;

namespace ScheduleOpt.SecondBiller.Tests;

public class GenerationTests
{
    [Fact]
    public void Pair_MadeTwice_IsTheSame() => Assert.Equal(Pair.Make(7).Plan.ToJsonString(), Pair.Make(7).Plan.ToJsonString());
}
