using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Comparison.Tonight.Timers;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Comparison.Tests.Tonight.Timers;

/// <summary>Single start, single finish, single current: by hand, and against every other choice.</summary>
public class TimerTests
{
    private const double RateKw = 6.9224;

    [Fact]
    public void TwoPrices_StartAndFinishAreTheLatestInTheCheapHours()
    {
        // 18 kWh at 6.9224 kW: 2.6002 h. Cheap from hour 5 to hour 11: the latest start on five minutes that is done by then is 8:20, the latest finish 11:00.
        var question = TwoPrices();
        var plan = NightPlanner.Plan(new NightQuestion(question));
        var timers = TimerFallbacks.Of(new NightQuestion(question), plan);
        var start = Assert.Single(timers.StartTime!.Nights);
        Assert.Equal(At(8, 20), start.Moment);
        Assert.Equal(18 / RateKw, (start.End - start.Start).TotalHours, 6);
        Assert.Equal(0.8, start.LimitFraction, 9);
        Assert.Equal(18 / RateKw * 7.68 * 0.10, start.Cost, 6);
        Assert.Equal(0, timers.StartTime.CostAbove, 3);
        Assert.True(timers.StartTime is { IsAsReady: true, KeepsLimits: true, CurrentA: 32 });

        var finish = Assert.Single(timers.FinishTime!.Nights);
        Assert.Equal(At(11), finish.Moment);
        Assert.Equal((At(11) - Duration.FromHours(18 / RateKw)).ToUnixTimeSeconds(), finish.Start.ToUnixTimeSeconds());
        Assert.Equal(0, timers.FinishTime.CostAbove, 3);
        Assert.Equal(32, timers.SingleCurrent!.CurrentA);
        Assert.Equal(0, timers.SingleCurrent.CostAbove, 9);
    }

    [Fact]
    public void CheapHoursApart_CostATimerMore()
    {
        // Cheap hours 3 and 6 to 8: a run of 2.6002 h in one piece finds two at most, the full schedule 2.6: from hour 6 to 8 and 0.6 h in hour 3 (or 8).
        // One run takes 6:00-8:36, of which 0.6002 h at 0.30 instead of 0.10: 0.6002 * 7.68 * 0.20 = 0.9219 more.
        var question = TwoPrices() with
        {
            Prices = new PriceSchedule(
                [new(At(0), 0.30m, "d"), new(At(3), 0.10m, "n"), new(At(4), 0.30m, "d"), new(At(6), 0.10m, "n"), new(At(8), 0.30m, "d")], At(60), "USD"),
        };
        var plan = NightPlanner.Plan(new NightQuestion(question));
        var timers = TimerFallbacks.Of(new NightQuestion(question), plan);
        Assert.Equal(((18 / RateKw) - 2) * 7.68 * 0.20, timers.StartTime!.CostAbove, 2);
        Assert.Equal(timers.StartTime.CostAbove, timers.FinishTime!.CostAbove, 2);
    }

    [Fact]
    public void ShortStay_StartsOnArrivalAndSaysWhatIsMissing()
    {
        var question = Sample.Question(Sample.Receptacle, 20, 0.2, Duration.FromHours(48), Sample.Trip(2, 40, 10, target: 0.9));
        var plan = NightPlanner.Plan(new NightQuestion(question));
        var timers = TimerFallbacks.Of(new NightQuestion(question), plan);
        Assert.Equal(Sample.Monday, timers.StartTime!.Nights[0].Moment);
        Assert.Equal(At(2), timers.FinishTime!.Nights[0].Moment);
        Assert.True(timers.StartTime.IsAsReady && timers.FinishTime.IsAsReady);
    }

    [Fact]
    public void HoursWithoutCharging_AreNotRunThrough()
    {
        var question = TwoPrices() with { NoCharging = [new Interval(At(6), At(10))] };
        var timers = TimerFallbacks.Of(new NightQuestion(question), NightPlanner.Plan(new NightQuestion(question)));
        foreach (var night in timers.StartTime!.Nights.Concat(timers.FinishTime!.Nights))
        {
            Assert.True(night.End <= At(6) || night.Start >= At(10));
            Assert.Equal(0, night.MissingKwh);
        }
    }

    [Fact]
    public void WarmUpBeforeDeparture_IsNotInATimersWay()
    {
        // 4 h of stay, of which the last half hour warms up with all that the circuit gives: 3.5 h of charging, to 90.4 %, set as 91 %. No timer knows of the half hour.
        var question = TwoPrices() with
        {
            Calendar = new DrivingCalendar([Sample.Trip(4, 45, 10, target: 1)]),
            WarmUp = new WarmUp(Duration.FromMinutes(30), 7.68 / 2, 1, 30),
        };
        var timers = TimerFallbacks.Of(new NightQuestion(question), NightPlanner.Plan(new NightQuestion(question)));
        foreach (var night in timers.StartTime!.Nights.Concat(timers.FinishTime!.Nights))
        {
            Assert.Equal((At(0), At(3, 30)), (night.Start, night.End));
            Assert.Equal(0.91, night.LimitFraction, 9);
            Assert.Equal(0, night.MissingKwh);
            Assert.Equal(0, night.ExtraKwh, 2);
        }
    }

    [Fact]
    public void ScheduleThatStoresForALaterTrip_IsFollowedInThat()
    {
        // Tomorrow's 10 miles need little, the 150 miles of the day after much, and only tonight's hours are cheap: a timer that stops at tomorrow's need would buy the rest dear.
        var question = TwoPrices() with
        {
            PluggedInAt = StateOfCharge.FromFraction(0.3),
            Calendar = new DrivingCalendar([Sample.Trip(13, 9, 10), Sample.Trip(34, 15, 150)]),
        };
        var plan = NightPlanner.Plan(new NightQuestion(question));
        var stored = plan.Cars[0].Replay.StoredKwh[plan.Cars[0].Problem.Departures[0].Boundary];
        Assert.True(stored > plan.Cars[0].Problem.Departures[0].RequiredKwh + 10, $"{stored} kWh");
        var timers = TimerFallbacks.Of(new NightQuestion(question), plan);
        Assert.All([timers.StartTime!.Nights[0], timers.FinishTime!.Nights[0]], n => Assert.True(n.ExtraKwh > -0.01, $"{n.ExtraKwh} kWh"));
    }

    [Fact]
    public void NightWithAChangeOfTheClocks_HasItsTrueHours()
    {
        // Chicago, 7 to 8 March 2026: 02:00 becomes 03:00. From 20:00 to 07:00 are 10 hours. Autumn, 31 October to 1 November: 12 hours.
        foreach (var (evening, hours) in new[] { (new LocalDateTime(2026, 3, 7, 20, 0), 10), (new LocalDateTime(2026, 10, 31, 20, 0), 12) })
        {
            var start = Sample.Chicago.Departure(evening).Instant;
            var leaves = Sample.Chicago.Departure(evening.PlusHours(11)).Instant;
            Assert.Equal(hours, (leaves - start).TotalHours);
            var end = leaves + Duration.FromHours(48);
            var question = Sample.Question(Sample.Outlet, 20, 0.4, Duration.FromHours(48)) with
            {
                Start = start,
                End = end,
                Prices = Sample.Flat(start, end),
                Calendar = new DrivingCalendar([Trip.Plain(leaves, leaves + Duration.FromHours(30), Distance.FromMiles(10), StateOfCharge.FromFraction(0.9))]),
            };
            var plan = NightPlanner.Plan(new NightQuestion(question));
            var timers = TimerFallbacks.Of(new NightQuestion(question), plan);
            Assert.Equal(start, timers.StartTime!.Nights[0].Moment);
            Assert.Equal(hours, (timers.StartTime.Nights[0].End - start).TotalHours, 6);
            Assert.Equal(24 + (hours * 1.1192), plan.Cars[0].Replay.StoredKwh[plan.Cars[0].Problem.Departures[0].Boundary], 2);
            Assert.True(timers.StartTime.IsAsReady && timers.FinishTime!.IsAsReady);
        }
    }

    /// <summary>Every start and every finish on five minutes, run minute by minute, finds none better.</summary>
    [Fact]
    public void RandomNights_NoOtherMomentIsBetter()
    {
        var compared = 0;
        for (var seed = 0; seed < 60; seed++)
        {
            var question = RandomCases.Case(seed);
            var plan = NightPlanner.Plan(new NightQuestion(question));
            var timers = TimerFallbacks.Of(new NightQuestion(question), plan);
            if (timers.StartTime is not { Nights.Count: > 0 } setting)
            {
                continue;
            }

            var problem = plan.Cars[0].Problem;
            var night = setting.Nights[0];
            var end = problem.Departures.Select(d => problem.Boundaries[d.Boundary]).Append(question.End).First(b => b >= night.End);
            var first = Array.FindLastIndex(problem.Place, Array.BinarySearch(problem.Boundaries, end) - 1, p => p != Place.Home) + 1;
            var goal = night.LimitFraction * problem.UsableKwh;
            var (stored, cost) = MinuteByMinute(problem, first, end, plan.Cars[0].Replay.StoredKwh[first], night.Start, goal);
            Assert.True(Math.Abs(cost - night.Cost) < 2 * problem.WallKw.Max() / 60 * problem.Price.Max(), $"seed {seed}");
            for (var at = problem.Boundaries[first] + Duration.FromMinutes(5); at < end; at += Duration.FromMinutes(35))
            {
                var other = MinuteByMinute(problem, first, end, plan.Cars[0].Replay.StoredKwh[first], Floor(at), goal);
                var ready = other.Stored >= stored - 1e-6;
                var highest = 2 * problem.WallKw.Max() / 60 * problem.Price.Max();
                var limited = !night.IsAboveLimit;
                Assert.False(ready && !limited && other.Cost < cost - highest - 1e-6, $"seed {seed}: {at} costs {other.Cost}, {night.Moment} {cost}");
                if (ready && limited && !Above(problem, first, plan.Cars[0].Replay.StoredKwh[first], Floor(at), goal))
                {
                    Assert.True(other.Cost > cost - highest - 1e-6, $"seed {seed}: {at} costs {other.Cost}, {night.Moment} {cost}");
                }

                compared++;
            }
        }

        Assert.True(compared > 500, $"only {compared} compared");
    }

    [Fact]
    public void LimitsByHours_BestSingleCurrentIsBestOfAllWholeAmperes()
    {
        var changed = 0;
        for (var seed = 0; seed < 12; seed++)
        {
            var random = new Random(seed);
            var question = TwoPrices() with
            {
                PluggedInAt = StateOfCharge.FromFraction(0.1 + (0.6 * random.NextDouble())),
                CurrentLimits = [new(new Interval(At(random.Next(5)), At(8 + random.Next(5))), 6 + random.Next(20))],
            };
            var night = new NightQuestion(question);
            var plan = NightPlanner.Plan(night);
            var best = SingleCurrent.Of(night, plan)!;
            changed += best.CurrentA < 32 ? 1 : 0;
            for (var amperes = 6; amperes <= 32; amperes++)
            {
                var other = NightPlanner.Plan(new NightQuestion(SingleCurrent.With(question, question.Supply!, amperes)));
                var missing = other.Cars[0].Departures[0].TargetShortfallKwh;
                var bestMissing = best.Plan.Cars[0].Departures[0].TargetShortfallKwh;
                Assert.True(missing > bestMissing - 0.02, $"seed {seed}, {amperes} A");
                Assert.True(missing > bestMissing + 0.02 || other.Cost - (other.Cars[0].Problem.EndValuePerKwh * other.Cars[0].Replay.StoredKwh[^1])
                    > best.Plan.Cost - (other.Cars[0].Problem.EndValuePerKwh * best.Plan.Cars[0].Replay.StoredKwh[^1]) - 0.003, $"seed {seed}, {amperes} A");
            }
        }

        Assert.True(changed > 0, "no case where less than the full current was best");
    }

    private static Instant At(int hour, int minute = 0) => Sample.Monday + Duration.FromMinutes((60 * hour) + minute);

    private static Instant Floor(Instant at) => Instant.FromUnixTimeSeconds(at.ToUnixTimeSeconds() / 300 * 300);

    private static ChargingCase TwoPrices() => Sample.Question(Sample.Receptacle, 20, 0.5, Duration.FromHours(49), Sample.Trip(13, 36, 10, target: 0.8)) with
    {
        Prices = new PriceSchedule([new(At(0), 0.30m, "day"), new(At(5), 0.10m, "night"), new(At(11), 0.30m, "day")], At(60), "USD"),
    };

    private static bool Above(ChargingProblem problem, int first, double stored, Instant start, double goal)
    {
        var above = false;
        for (var i = first; i < problem.Count && problem.Place[i] == Place.Home; i++)
        {
            for (var at = problem.Boundaries[i]; at < problem.Boundaries[i + 1] && stored < goal; at += Duration.FromMinutes(1))
            {
                stored = at >= start ? Math.Min(goal, Replay.Charge(problem, i, stored, 1.0 / 60).StoredKwh) : stored;
            }

            above |= stored > problem.UpperKwh[i + 1] + (0.01 * problem.UsableKwh);
        }

        return above;
    }

    private static (double Stored, double Cost) MinuteByMinute(ChargingProblem problem, int first, Instant end, double stored, Instant start, double goal)
    {
        var cost = 0.0;
        for (var i = first; i < problem.Count && problem.Boundaries[i] < end; i++)
        {
            for (var at = problem.Boundaries[i]; at < problem.Boundaries[i + 1] && stored < goal - 1e-9; at += Duration.FromMinutes(1))
            {
                if (at >= start)
                {
                    var length = Duration.Min(Duration.FromMinutes(1), problem.Boundaries[i + 1] - at).TotalHours;
                    var charged = Replay.Charge(problem, i, stored, length);
                    cost += charged.WallKwh * problem.Price[i];
                    stored = Math.Min(goal, charged.StoredKwh);
                }
            }
        }

        return (stored, cost);
    }
}
