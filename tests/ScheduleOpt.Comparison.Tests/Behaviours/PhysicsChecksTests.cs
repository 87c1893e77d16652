using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tests.Behaviours;

/// <summary>Exact results of the charging model at its defaults, worked outside this code base, through the whole simulator.</summary>
public sealed class PhysicsChecksTests
{
    // Full power P at the wall for the hours it takes: 36 kWh / r and P times that, r = 0.93 P - 0.22 - 0.05 (6 - T).
    [Theory]
    [InlineData(240, 40, 70, 0.20, 0.80, 5.20, 39.94)]
    [InlineData(240, 40, 20, 0.20, 0.80, 5.72, 43.96)]
    [InlineData(120, 15, 70, 0.50, 0.80, 16.08, 23.16)]
    [InlineData(120, 15, 20, 0.50, 0.80, 37.05, 53.35)]
    [InlineData(120, 15, 0, 0.50, 0.80, 0, 0)]
    [InlineData(240, 60, 70, 0.20, 0.90, 4.00, 46.1)]
    public void OnArrival_FromOneStateToAnother_TakesHoursAndEnergyOfTheModel(
        int volts, double breaker, double fahrenheit, double from, double until, double hours, double wallKwh)
    {
        var question = Sample.Question(Supply(volts, breaker), Sample.Celsius(fahrenheit), from, Duration.FromHours(48));
        var problem = ChargingProblemBuilder.Build(question with
        {
            Vehicle = question.Vehicle with { OrdinaryLimit = StateOfCharge.FromFraction(until) },
        });

        var run = BehaviourSimulator.Run(problem, new OnArrival()).Replay;

        Assert.Equal(hours, run.OnHours.Sum(), 0.02);
        Assert.Equal(wallKwh, run.WallKwh.Sum(), 0.05);
        Assert.Equal(hours == 0 ? from * 60 : until * 60, run.StoredKwh[^1], 1e-9);
    }

    [Fact]
    public void OnArrival_LastTenth_IsSlowedByTheTaper()
    {
        // 6 kWh at 6.92 kW would take 0.87 h. The taper constants are assumptions; 1.29 h is their closed form.
        var question = Sample.Question(Sample.Receptacle, Sample.Celsius(70), 0.9, Duration.FromHours(4));
        var problem = ChargingProblemBuilder.Build(question with
        {
            Vehicle = question.Vehicle with { OrdinaryLimit = StateOfCharge.FromFraction(1) },
        });

        var run = BehaviourSimulator.Run(problem, new OnArrival()).Replay;

        Assert.Equal(1.29, run.OnHours.Sum(), 0.03);
        Assert.Equal(60, run.StoredKwh[^1], 1e-6);
    }

    // A day of 30 miles: 30 * 0.25 * f(T) kWh stored, P / r times that at the wall.
    [Theory]
    [InlineData(70, 7.53, 9.69, 8.36)]
    [InlineData(20, 10.38, 30.75, 12.67)]
    public void OnArrival_DayOf30Miles_TakesEnergyOfTheModel(double fahrenheit, double drive, double wall120, double wall240)
    {
        foreach (var (supply, wall) in new[] { (Sample.Outlet, wall120), (Sample.Receptacle, wall240) })
        {
            var problem = ChargingProblemBuilder.Build(Sample.Question(
                supply, Sample.Celsius(fahrenheit), 0.8, Duration.FromHours(48), Sample.Trip(2, 8, 30)));

            var run = BehaviourSimulator.Run(problem, new OnArrival()).Replay;

            Assert.Equal(drive, problem.DriveKwh.Sum(), 0.02);
            Assert.Equal(wall, run.WallKwh.Sum(), 0.02);
            Assert.Equal(48, run.StoredKwh[^1], 1e-9);
        }
    }

    [Fact]
    public void OnArrival_TwelveHourNightAt20Fahrenheit_OutletStoresFiveAndAHalfToSix()
    {
        // Case 45: 120 V alone cannot keep up with 30 miles a day in a night of 12 h: 5.8 kWh.
        var problem = ChargingProblemBuilder.Build(Sample.Question(Sample.Outlet, Sample.Celsius(20), 0.3, Duration.FromHours(12)));

        var run = BehaviourSimulator.Run(problem, new OnArrival()).Replay;

        Assert.Equal(5.83, run.StoredKwh[^1] - run.StoredKwh[0], 0.01);
    }

    private static Supply Supply(int volts, double breaker) => Sample.Outlet with { VoltageV = volts, BreakerA = breaker };
}
