using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tests.Tonight;

/// <summary>An answer says that its search stopped early wherever the search's own gap is above a tenth of a per cent of the bound that is stated, or a tenth of a cent.</summary>
public sealed class LimitReachedTests
{
    private static readonly NightPlan Night = NightPlanner.Plan(new NightQuestion(Sample.Question(Sample.Receptacle, 20, 0.5, Duration.FromHours(25), Sample.Trip(20, 4, 20, target: 0.8))));

    [Theory]
    [InlineData(0.9, false)]
    [InlineData(1.1, true)]
    public void Gap_AboveATenthOfAPerCentOfTheBoundStated_IsSaid(double times, bool said)
    {
        var fine = 0.001 * Night.BoundCost;
        Assert.True(fine > 0.001 && !Night.LimitReached, $"{Night.BoundCost}");
        Assert.Equal(said, Account(Night.Schedule, times * fine).LimitReached);
    }

    // The bound of the search has the end value in it, here a hundred times what is stated: within a tenth of a per cent of that is not within one of the bound stated.
    [Fact]
    public void Gap_FineBesideTheEndValueAlone_IsSaid()
    {
        var plan = Account(Night.Schedule with { Objective = 100 * Night.BoundCost }, 0.05 * Night.BoundCost, Night.BoundCost);
        Assert.False(plan.Schedule.LimitReached);
        Assert.True(plan.Schedule.Gap < 0.001 * plan.Schedule.Bound);
        Assert.True(plan.LimitReached);
    }

    [Fact]
    public void Search_ThatStoppedItself_IsSaid() => Assert.True(Account(Night.Schedule with { LimitReached = true }, 0).LimitReached);

    [Fact]
    public void Night_OfAnyHousehold_SaysSoExactlyWhereItsSearchStopped()
    {
        for (var seed = 0; seed < 30; seed++)
        {
            var plan = NightPlanner.Plan(CoupledNights.Of(seed));
            Assert.Equal(plan.Schedule.LimitReached || plan.Schedule.Gap > Math.Max(0.001, 0.001 * Math.Abs(plan.BoundCost)), plan.LimitReached);
        }
    }

    private static NightPlan Account(HouseholdSchedule schedule, double gap, double? bound = null)
    {
        var runs = NightPlanner.Runs(Night.Question, Night.Problem, schedule);
        var plan = NightAccount.Of(Night.Question, Night.Problem, schedule with { Bound = schedule.Objective - gap }, runs, ArrivalRuns.Of(Night.Problem), []);
        return bound is { } stated ? plan with { BoundCost = stated } : plan;
    }
}
