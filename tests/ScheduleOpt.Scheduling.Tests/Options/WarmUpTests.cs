using NodaTime;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Options;

/// <summary>Warming before a departure: a load from the wall that leaves less for charging and spares the first leg.</summary>
public class WarmUpTests
{
    private static readonly WarmUp HalfAnHour = new(Duration.FromMinutes(30), WallKwh: 2, SparedKwh: 1.5, BelowC: 0);

    [Fact]
    public void BelowItsTemperature_ItTakesItsPowerAndSparesTheFirstLeg()
    {
        var plain = ChargingProblemBuilder.Build(Nights.Plain(-10));
        var problem = ChargingProblemBuilder.Build(Nights.Plain(-10) with { WarmUp = HalfAnHour });

        // 2 kWh in half an hour: 4 kW. Of 7.68 kW 3.68 are left, 15.33 A; at -10 degC 0.93 * 3.68 - 0.22 - 0.8 = 2.4024 kW go into the battery.
        var last = problem.Departures[0].Boundary - 1;
        Assert.Equal(4, problem.WarmUpKw![last], 9);
        Assert.Equal(3.68, problem.WallKw[last], 9);
        Assert.Equal(15 + (1.0 / 3), problem.MostA[last], 9);
        Assert.Equal(2.4024, problem.NetKw[last], 9);
        Assert.Equal(0, problem.WarmUpKw[last - 2], 9);

        // The trip's mean is 1.5 kWh less, its need too: what was spared is spared once, whatever the confidence.
        Assert.Equal(plain.Departures[0].DriveKwh - 1.5, problem.Departures[0].DriveKwh, 9);
        var bare = new[] { plain, problem }.Select(p => p.DriveKwh.Sum()).ToArray();
        Assert.Equal(3, bare[0] - bare[1], 9);

        // 2 kWh on each of two mornings, at 0.30.
        Assert.Equal(1.2, problem.WarmUpCost(), 9);
        Assert.Equal(4, Replay.Run(problem, new double[problem.Count]).WallKwh.Sum(), 9);
    }

    [Fact]
    public void NeedAtConfidence_IsLessByWhatIsSpared()
    {
        var question = Nights.Plain(-10, target: 0) with { WarmUp = HalfAnHour };
        var plain = ChargingProblemBuilder.Build(question with { WarmUp = null });
        Assert.Equal(plain.Departures[0].RequiredKwh - 1.5, ChargingProblemBuilder.Build(question).Departures[0].RequiredKwh, 9);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(15.0)]
    public void NotBelowItsTemperature_ItDoesNotRun(double celsius) =>
        Assert.Null(ChargingProblemBuilder.Build(Nights.Plain(celsius) with { WarmUp = HalfAnHour }).WarmUpKw);

    [Fact]
    public void SupplyThatGivesLess_WarmsAndSparesLess()
    {
        // 10 A at 240 V: 2.4 of 4 kW, so 60 %: 0.9 kWh spared, and nothing is left for charging.
        var question = Nights.Plain(-10) with
        {
            WarmUp = HalfAnHour,
            CurrentLimits = [new(new Interval(Nights.At(29), Nights.At(30)), 10)],
        };
        var problem = ChargingProblemBuilder.Build(question);
        var last = problem.Departures[0].Boundary - 1;
        Assert.Equal(2.4, problem.WarmUpKw![last], 9);
        Assert.Equal(0, problem.WallKw[last]);
        var plain = ChargingProblemBuilder.Build(question with { WarmUp = null });
        Assert.Equal(0.9, plain.Departures[0].DriveKwh - problem.Departures[0].DriveKwh, 9);

        // In hours without charging the car takes no power at all.
        Assert.Equal(0, ChargingProblemBuilder.Build(question with { NoCharging = [new Interval(Nights.At(29), Nights.At(30))] }).WarmUpKw![last]);
    }

    [Fact]
    public void MoreThanTheFirstLegNeeds_SparesTheLegAndNoMore()
    {
        var question = Nights.Plain(-10, km: 4) with { WarmUp = HalfAnHour };
        var problem = ChargingProblemBuilder.Build(question);
        var plain = ChargingProblemBuilder.Build(question with { WarmUp = null });
        Assert.Equal(plain.Departures[0].DriveKwh / 2, problem.Departures[0].DriveKwh, 9);
        Assert.All(problem.DriveKwh, d => Assert.True(d >= 0));
    }

    [Fact]
    public void RandomCases_ReplayedAndChecked()
    {
        var warmed = 0;
        for (var seed = 0; seed < 150; seed++)
        {
            var random = new Random(seed);
            var question = LimitsByHoursTests.WithLimits(RandomCases.Case(seed), random) with
            {
                WarmUp = new(Duration.FromMinutes(random.Next(5, 121)), 3 * random.NextDouble(), 3 * random.NextDouble(), 10),
                FinishMargin = Duration.FromMinutes(random.Next(3) * 45),
            };
            var problem = ChargingProblemBuilder.Build(question);
            var least = Scheduler.Solve(problem);
            Assert.Empty(ScheduleCheck.Findings(problem, ScheduleCheckTests.Claim(question, problem, least)));
            warmed += problem.WarmUpKw is null ? 0 : 1;
        }

        Assert.True(warmed > 50, $"only {warmed} cases warmed");
    }
}
