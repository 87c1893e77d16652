using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Tests.Households;

/// <summary>A household that plans by night looks at its minimum bill: energy that costs nothing is taken before energy that does.</summary>
public sealed class MinimumBillNightTests
{
    private const int KindWithMinimumBill = 5;

    [Fact]
    public void ByNight_MinimumBill_CostsLessThanNightsThatDoNotKnowOfIt()
    {
        var (minded, ignored) = (0m, 0m);
        for (var seed = KindWithMinimumBill; seed < 20 * YearHouseholds.Kinds; seed += YearHouseholds.Kinds)
        {
            var question = YearHouseholds.Of(seed);
            var frame = new YearFrame(question);
            var setUp = new SetUpYear(frame, question.SetUps[0]);
            var byNight = question.Behaviours.OfType<LeastCostByNight>().Single();
            var plan = PlanYear.Of(frame, question.RatePlans[0]);
            var without = PlanYear.Of(frame, question.RatePlans[0] with { MinimumBill = null });

            minded += Cost(YearRun.ByNight(frame, setUp, plan, byNight));
            ignored += Cost(YearRun.ByNight(frame, setUp, without, byNight));

            decimal Cost(YearRun run)
            {
                var bill = plan.BillWith(run.Car);
                return bill.Total + run.Away.Cost + run.Correction(frame, plan, bill).Cost;
            }
        }

        Assert.True(minded < ignored, $"{minded} against {ignored}");
    }
}
