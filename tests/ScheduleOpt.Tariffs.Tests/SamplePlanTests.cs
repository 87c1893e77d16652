using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Tariffs.Tests;

public class SamplePlanTests
{
    [Fact]
    public void SamplePlans_AllOfThem_AreRead() => Assert.NotEmpty(RatePlanLibrary.All);
}
