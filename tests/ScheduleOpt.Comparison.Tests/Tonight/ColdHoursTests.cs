using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Comparison.Tests.Tonight;

/// <summary>The answer says which cold hours wait, and why.</summary>
public class ColdHoursTests
{
    /// <summary>Case 46 of the physics checks: on 120 V, 12 A a kWh stored at 0.20 at 70 degF costs 0.257, at 0.10 at 20 degF 0.296: the dear warm hours win. An exact
    /// result of the charging model at its defaults.</summary>
    [Fact]
    public void OrdinaryOutlet_TheDearWarmHoursAreUsedAndTheCheapColdOnesNamed()
    {
        // Four warm hours at 0.20, then eight cold ones at 0.10; 4 kWh are wished for, four warm hours store 4.48.
        var end = Sample.Monday + Duration.FromHours(48);
        var question = Sample.Question(Sample.Outlet, 0, 0.5, Duration.FromHours(48), Sample.Trip(12, 36, 0, target: 34.0 / 60)) with
        {
            Temperatures = new TemperatureForecast(Sample.Monday, Duration.FromHours(4), [Sample.Celsius(70), .. Enumerable.Repeat(Sample.Celsius(20), 12)]),
            Prices = new PriceSchedule([new(Sample.Monday, 0.20m, "evening"), new(Sample.Monday + Duration.FromHours(4), 0.10m, "night")], end, "USD"),
        };
        var plan = NightPlanner.Plan(new NightQuestion(question));
        Assert.All(plan.Cars[0].Windows, w => Assert.True(w.End <= Sample.Monday + Duration.FromHours(4)));
        var cold = Assert.Single(plan.Cars[0].ColdHours);
        Assert.Equal(ColdReason.CostsMoreOnceStored, cold.Reason);
        Assert.Equal((Sample.Monday + Duration.FromHours(4), Sample.Monday + Duration.FromHours(12)), (cold.Start, cold.End));
        Assert.Equal(0.296, cold.PricePerStoredKwh!.Value, 3);
        Assert.Equal(0.257, cold.InsteadPricePerStoredKwh!.Value, 3);
        Assert.Equal((0.10, 0.20), (cold.PricePerKwh, cold.InsteadPricePerKwh!.Value));
        Assert.Contains(plan.Warnings, w => w.Contains("cheaper hours are so cold"));
    }

    [Fact]
    public void DeepCold_StoresNothingOnAnOrdinaryOutlet_AndIsNotSwitchedOn()
    {
        // At -20 degC 1.44 kW store nothing (zero from -16.4 degC); from midnight on it is -10 degC. The price is the same all night.
        var question = Sample.Question(Sample.Outlet, 0, 0.5, Duration.FromHours(48), Sample.Trip(12, 36, 0, target: 0.9)) with
        {
            Temperatures = new TemperatureForecast(Sample.Monday, Duration.FromHours(6), [-20, .. Enumerable.Repeat(-10.0, 8)]),
        };
        var plan = NightPlanner.Plan(new NightQuestion(question));
        var cold = Assert.Single(plan.Cars[0].ColdHours);
        Assert.Equal((ColdReason.StoresNothing, Sample.Monday, Sample.Monday + Duration.FromHours(6)), (cold.Reason, cold.Start, cold.End));
        Assert.Null(cold.PricePerStoredKwh);
        Assert.Equal(Sample.Monday + Duration.FromHours(6), plan.Cars[0].Windows[0].Start);
        Assert.Contains(plan.Warnings, w => w.Contains("warming the battery"));
    }

    [Fact]
    public void MildNight_HasNone()
    {
        var plan = NightPlanner.Plan(new NightQuestion(Sample.Question(Sample.Receptacle, 20, 0.5, Duration.FromHours(48), Sample.Trip(12, 36, 20))));
        Assert.Empty(plan.Cars[0].ColdHours);
    }
}
