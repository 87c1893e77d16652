using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Options;

/// <summary>A finish margin moves energy earlier, never away from a departure.</summary>
public class FinishMarginTests
{
    [Fact]
    public void KeptMargin_HasTheEnergyWhenItBegins()
    {
        // 18 kWh by 05:00Z instead of 06:00Z: all in the cheap hours anyway.
        var problem = ChargingProblemBuilder.Build(Nights.Plain() with { FinishMargin = Duration.FromHours(1) });
        var departure = problem.Departures[0];
        Assert.True(departure.MarginKept);
        Assert.Equal(Nights.At(29), problem.Boundaries[departure.DueBoundary]);
        Assert.True(Scheduler.Solve(problem).StoredKwh[departure.DueBoundary] >= 48 - 1e-6);
    }

    [Fact]
    public void MarginThatNeedsTheExtendedLimit_MayUseItAsMuchEarlier()
    {
        // 57 kWh are asked for at 06:00Z. Without a margin the ordinary limit of 48 kWh may be passed 30 min before it must; with 3 h, from before 03:00Z.
        var question = Nights.Plain(target: 0.95);
        var (without, with) = (ChargingProblemBuilder.Build(question), ChargingProblemBuilder.Build(question with { FinishMargin = Duration.FromHours(3) }));
        Assert.True(Scheduler.Solve(without).StoredKwh[Array.IndexOf(without.Boundaries, Nights.At(27))] <= 48 + 1e-6);
        Assert.Equal(57, Scheduler.Solve(with).StoredKwh[Array.IndexOf(with.Boundaries, Nights.At(27))], 6);
    }

    [Fact]
    public void MarginLongerThanTheTimeLeft_IsGivenUpAndTheDepartureIsNot()
    {
        // From 18:00Z the car has 48 kWh at 20:36Z at the earliest: with a margin of 10 h it would be due at 20:00Z.
        var question = Nights.Plain();
        question = question with { Calendar = new DrivingCalendar([question.Calendar.Trips[0]]) };
        var problem = ChargingProblemBuilder.Build(question with { FinishMargin = Duration.FromHours(10) });
        Assert.False(problem.Departures[0].MarginKept);
        Assert.Equal(problem.Departures[0].Boundary, problem.Departures[0].DueBoundary);
        Assert.Equal(Scheduler.Solve(ChargingProblemBuilder.Build(question)).Cost, Scheduler.Solve(problem).Cost, 9);
    }

    [Fact]
    public void CarThatHasItsEnergyAlready_KeepsAnyMargin()
    {
        var question = Nights.Plain() with { PluggedInAt = StateOfCharge.FromFraction(0.8), FinishMargin = Duration.FromHours(24) };
        Assert.True(ChargingProblemBuilder.Build(question).Departures[0].MarginKept);
    }

    [Fact]
    public void RandomMargins_CostNoDepartureItsEnergy()
    {
        var (kept, givenUp) = (0, 0);
        for (var seed = 0; seed < 150; seed++)
        {
            var question = RandomCases.Case(seed);
            var margin = Duration.FromMinutes(new Random(seed).Next(1, 241));
            var plain = ChargingProblemBuilder.Build(question);
            var problem = ChargingProblemBuilder.Build(question with { FinishMargin = margin });
            var (before, after) = (Scheduler.Solve(plain), Scheduler.Solve(problem));
            Assert.False(after.LimitReached, $"seed {seed}");
            for (var k = 0; k < plain.Departures.Length; k++)
            {
                var departure = problem.Departures[k];
                Assert.True(after.TripShortfallKwh[k] <= before.TripShortfallKwh[k] + 1e-6, $"seed {seed}");
                Assert.True(after.TargetShortfallKwh[k] <= before.TargetShortfallKwh[k] + 1e-6, $"seed {seed}");
                if (departure.MarginKept && departure.DueBoundary < departure.Boundary)
                {
                    kept++;
                    Assert.Equal(problem.Boundaries[departure.Boundary] - margin, problem.Boundaries[departure.DueBoundary]);
                    Assert.True(after.StoredKwh[departure.DueBoundary] >= departure.RequiredKwh - 1e-6, $"seed {seed}");
                }

                givenUp += departure.MarginKept ? 0 : 1;
            }

            Assert.Empty(ScheduleCheck.Findings(problem, ScheduleCheckTests.Claim(question, problem, after)));
        }

        Assert.True(kept > 50 && givenUp > 15, $"{kept} kept, {givenUp} given up");
    }
}
