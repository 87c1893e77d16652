using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tests.Behaviours;

public sealed class StopTests
{
    [Theory]
    [InlineData(0.80, 0)]
    [InlineData(0.40, 2)]
    [InlineData(0.20, 10)]
    public void Run_StopThatCharges_TakesWhatTheWayHomeNeedsPlusTheMinimum(double state, double stored)
    {
        // 40 miles out and 40 back at 20 degC: 10 kWh each way, minimum 6 kWh. At the stop the goal is 16 kWh.
        // From 48 kWh it arrives with 38 and takes nothing; from 24 with 14 and takes 2; from 12 with the minimum (and is 4 short): 10.
        // There is no supply at home.
        var problem = ChargingProblemBuilder.Build(Sample.Question(null, 20, state, Duration.FromHours(12), Trip(7.2)));

        var run = BehaviourSimulator.Run(problem, new OnArrival()).Replay;

        var atStop = Enumerable.Range(0, problem.Count).Where(i => problem.Place[i] == Place.Stop).ToArray();
        Assert.Equal(stored, run.StoredKwh[atStop[^1] + 1] - run.StoredKwh[atStop[0]], 1e-9);
    }

    private static Trip Trip(double stopKw)
    {
        var departure = Sample.Monday + Duration.FromHours(1);
        var (from, until) = (departure + Duration.FromHours(1), departure + Duration.FromHours(6));
        var half = Distance.FromMiles(40);
        return new Trip
        {
            Departure = departure,
            Return = until + Duration.FromHours(1),
            Legs =
            [
                new TripLeg(half, departure, from, departure)
                {
                    Stop = new TripStop(from, until) { ChargingPower = Power.FromKilowatts(stopKw), PricePerKwh = 0.3m },
                },
                new TripLeg(half, until, until + Duration.FromHours(1), until),
            ],
        };
    }
}
