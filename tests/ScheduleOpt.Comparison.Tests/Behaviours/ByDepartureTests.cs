using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tests.Behaviours;

public sealed class ByDepartureTests
{
    [Fact]
    public void Start_HandWorkedNight_IsDepartureLessEnergyOverRate()
    {
        // 30 -> 48 kWh at 0.93 * 7.68 - 0.22 = 6.9224 kW: 2.600254 h before the departure at 13 h.
        var problem = ChargingProblemBuilder.Build(
            Sample.Question(Sample.Receptacle, 20, 0.5, Duration.FromHours(24), Sample.Trip(13, 9, 20)));

        var start = new ByDeparture().StartOf(HomeStay.Of(problem).First(), problem, 30);

        Assert.Equal(13 - 2.600254, (start - Sample.Monday).TotalHours, 1e-6);
    }

    [Fact]
    public void Run_TargetOfFullCharge_MeetsItThroughTheTaper()
    {
        var problem = ChargingProblemBuilder.Build(
            Sample.Question(Sample.Hardwired, 5, 0.4, Duration.FromHours(24), Sample.Trip(13.2, 9, 20, 1)));

        var run = BehaviourSimulator.Run(problem, new ByDeparture()).Replay;

        Assert.Equal(0, run.TargetShortfallKwh[0], 1e-6);
        Assert.Equal(60, run.StoredKwh[problem.Departures[0].Boundary], 1e-6);
    }

    [Fact]
    public void Run_StayTooShort_ChargesFromArrival()
    {
        // 1.1192 kW for 13 h gives 14.55 kWh of the 18 kWh wished.
        var problem = ChargingProblemBuilder.Build(
            Sample.Question(Sample.Outlet, 20, 0.5, Duration.FromHours(24), Sample.Trip(13, 9, 20)));

        var run = BehaviourSimulator.Run(problem, new ByDeparture()).Replay;

        Assert.Equal(30 + (13 * 1.1192), run.StoredKwh[problem.Departures[0].Boundary], 1e-9);
    }

    [Fact]
    public void Run_NoDeparture_EndsAtTheOrdinaryLimit()
    {
        var problem = ChargingProblemBuilder.Build(Sample.Question(Sample.Receptacle, 20, 0.5, Duration.FromHours(24)));

        var run = BehaviourSimulator.Run(problem, new ByDeparture());

        Assert.Equal(48, run.Replay.StoredKwh[^1], 1e-9);
        Assert.Equal(0, run.Shares[0]);
        Assert.Equal(1, run.Shares[^1], 9);
    }
}
