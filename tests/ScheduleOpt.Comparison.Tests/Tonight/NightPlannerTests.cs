using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Scheduling;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Comparison.Tests.Tonight;

/// <summary>Whole nights on random cases: checked, runnable, near the bound.</summary>
public class NightPlannerTests
{
    private const int Cases = 300;

    [Fact]
    public void Plan_OfAnyCase_PassesItsCheckAndKeepsNearItsBound()
    {
        var fine = 0;
        var worst = 0.0;
        for (var seed = 0; seed < Cases; seed++)
        {
            var question = RandomCases.Case(seed);
            var plan = NightPlanner.Plan(new NightQuestion(question));
            Assert.True(plan.CheckFindings.Count == 0, $"seed {seed}: {string.Join("; ", plan.CheckFindings)}");
            Assert.True(plan.Cars[0].FullCurrentA <= (question.Supply?.ContinuousRatingA ?? 0) + 1e-9, $"seed {seed}");
            Assert.True(plan.Cars[0].Windows.Zip(plan.Cars[0].Windows.Skip(1)).All(p => p.First.End <= p.Second.Start), $"seed {seed}: windows overlap");
            fine += plan.GapIsFine ? 1 : 0;
            worst = Math.Max(worst, plan.Gap);
        }

        TestContext.Current.SendDiagnosticMessage($"gap fine in {fine} of {Cases}, worst {worst}");
        Assert.True(fine >= Cases * 0.9, $"gap fine in {fine} of {Cases}, worst {worst}");
    }

    [Fact]
    public void Plan_AgainstChargingOnArrival_NeverCostsMoreForAsMuch()
    {
        for (var seed = 0; seed < Cases; seed++)
        {
            var plan = NightPlanner.Plan(new NightQuestion(RandomCases.Case(seed)));
            var arrivalIsAsReady = plan.ExtraEndKwhOnArrival >= -1e-6;
            if (plan.Outcome == NightOutcome.Ready && arrivalIsAsReady && plan.Cars[0].Replay.StoredKwh[^1] >= plan.Cars[0].Problem.OrdinaryKwh - 0.02)
            {
                Assert.True(plan.Cost <= plan.CostOnArrival + 0.01, $"seed {seed}: {plan.Cost} against {plan.CostOnArrival}");
            }
        }
    }

    [Fact]
    public void Plan_OfEqualQuestions_IsEqual()
    {
        for (var seed = 0; seed < 20; seed++)
        {
            var first = NightPlanner.Plan(new NightQuestion(RandomCases.Case(seed)));
            var second = NightPlanner.Plan(new NightQuestion(RandomCases.Case(seed)));
            Assert.Equal(first.Cars[0].Windows, second.Cars[0].Windows);
            Assert.Equal(first.Cost, second.Cost);
            Assert.Equal(first.BoundCost, second.BoundCost);
        }
    }
}
