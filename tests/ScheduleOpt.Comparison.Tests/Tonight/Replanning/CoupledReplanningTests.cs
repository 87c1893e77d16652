using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Comparison.Tonight.Replanning;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tests.Tonight.Replanning;

/// <summary>Earlier windows of two cars that share a circuit are kept while they serve, hold and cost little more.</summary>
public class CoupledReplanningTests
{
    /// <summary>Two cars that lack an hour each, one at a time on their circuit. Hours 3 and 4 at 0.10, 5 and 6 cheaper, the rest 0.30.</summary>
    private static NightQuestion TwoCars(decimal cheaper, double state = (48 - 6.9224) / 60, double startsAt = 0)
    {
        ChargingCase Car() => Sample.Question(Sample.Receptacle, 20, state, Duration.FromHours(49), Sample.Trip(13, 36, 0, target: 0.8)) with
        {
            Start = At(startsAt),
            GridStep = Duration.FromHours(1),
            Prices = new PriceSchedule([new(At(0), 0.30m, "a"), new(At(3), 0.10m, "b"), new(At(5), cheaper, "c"), new(At(7), 0.30m, "d")], At(60), "USD"),
        };
        return new(new HouseholdCase { Cars = [new("first", Car(), RunningRules.FullCurrent), new("second", Car(), RunningRules.FullCurrent)], SharedCircuitA = 32 });
    }

    [Fact]
    public void TwoCars_SmallSaving_KeepsBothWindows_LargeOneNeither()
    {
        // Two hours of 7.68 kWh: 0.002 a kWh cheaper saves 0.031, 0.02 saves 0.307; the threshold is 0.05.
        EarlierPlan?[] earlier = [new([new(At(3), At(4))], 0.05m), new([new(At(4), At(5))], 0.05m)];
        foreach (var (cheaper, kept) in new[] { (0.098m, true), (0.08m, false) })
        {
            var fresh = NightPlanner.Plan(TwoCars(cheaper));
            Assert.All(fresh.Cars, c => Assert.True(c.Windows[0].Start >= At(4.9)));
            var choice = Replanner.Choose(fresh, earlier);
            Assert.Equal(kept, choice.KeptEarlier);
            Assert.Equal(kept ? 2 * 7.68 * 0.002 : 0, choice.GivenUp, 2);
            Assert.Empty(choice.Plan.CheckFindings);
            Assert.Equal(NightOutcome.Ready, choice.Plan.Outcome);
            if (kept)
            {
                Assert.Equal([At(3), At(4)], choice.Plan.Cars.Select(c => c.Windows[0].Start).Order().Select(ToHour));
                Assert.Equal(fresh.Schedule.Bound, choice.Plan.Schedule.Bound);
            }
        }
    }

    [Fact]
    public void SecondCarThatTookLess_IsNoticed_AndItsWindowGrows()
    {
        var question = TwoCars(0.098m);
        question = question with { Case = question.Case with { Cars = [question.Case.Cars[0], question.Case.Cars[1] with { Case = question.Case.Cars[1].Case with { PluggedInAt = StateOfCharge.FromFraction((48 - (1.5 * 6.9224)) / 60) } }] } };
        var fresh = NightPlanner.Plan(question);
        var choice = Replanner.Choose(fresh, [new([new(At(3), At(4))], 0.30m, 48 - 6.9224), new([new(At(4), At(5))], 0.30m, 48 - 6.9224)]);
        Assert.Null(choice.Notices[0]);
        Assert.Equal(0.5 * 6.9224, choice.Notices[1]!.Kwh, 6);
        Assert.True(choice.KeptEarlier);
        Assert.Equal(NightOutcome.Ready, choice.Plan.Outcome);

        // An hour and a half: of its hour and the cheaper one beside it, all of which an interval of the grid adds.
        var window = Assert.Single(choice.Plan.Cars[1].Windows, w => w.Start < At(13));
        Assert.InRange(window.Start, At(3.9), At(4.6));
        Assert.InRange(window.End, At(5.4), At(6.1));
    }

    [Fact]
    public void WindowUnderWay_IsNotInterruptedForALittle()
    {
        // At half past three the first car is in its window of hour 3 to 4; hours 5 and 6 are a little cheaper.
        var fresh = NightPlanner.Plan(TwoCars(0.098m, (48 - (0.5 * 6.9224)) / 60, startsAt: 3.5));
        var choice = Replanner.Choose(fresh, [new([new(At(3), At(4))], 0.05m), new([new(At(4), At(5))], 0.05m)]);
        Assert.True(choice.KeptEarlier);
        Assert.Equal(At(3.5), choice.Plan.Cars[0].Windows[0].Start);
    }

    [Fact]
    public void RandomNights_KeptPlansServeAndHold()
    {
        var (kept, asked) = (0, 0);
        for (var seed = 0; seed < 15; seed++)
        {
            var random = new Random(seed);
            var fresh = NightPlanner.Plan(CoupledNights.Of(seed));
            if (fresh.Route == SolveRoute.Shares)
            {
                continue;
            }

            asked++;
            EarlierPlan?[] earlier = [.. fresh.Cars.Select(c => new EarlierPlan(
                [.. c.Windows.Select(w => new ChargingWindow(w.Start + Duration.FromMinutes(random.Next(-60, 61)), w.End + Duration.FromMinutes(61)))], 0.5m))];
            var choice = Replanner.Choose(fresh, earlier);
            Assert.Empty(choice.Plan.CheckFindings);
            Assert.True(choice.GivenUp <= 0.5 + 1e-6, $"seed {seed}");
            for (var c = 0; c < fresh.Cars.Count; c++)
            {
                for (var k = 0; k < fresh.Cars[c].Departures.Count; k++)
                {
                    Assert.True(choice.Plan.Cars[c].Departures[k].TripShortfallKwh <= fresh.Cars[c].Departures[k].TripShortfallKwh + 0.011, $"seed {seed}");
                    Assert.True(choice.Plan.Cars[c].Departures[k].TargetShortfallKwh <= fresh.Cars[c].Departures[k].TargetShortfallKwh + 0.011, $"seed {seed}");
                }
            }

            kept += choice.KeptEarlier ? 1 : 0;
        }

        Assert.True(kept > asked / 3, $"only {kept} of {asked} kept");
    }

    // The taper and whole seconds move an edge by moments.
    private static Instant ToHour(Instant at) => Sample.Monday + Duration.FromHours(Math.Round((at - Sample.Monday).TotalHours));

    private static Instant At(double hour) => CoupledNights.At(hour);
}
