using CsCheck;
using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Tests.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Comparison.Tests.Year;

/// <summary>Least cost earns its name.</summary>
public sealed class LeastCostTests
{
    [Fact]
    public void Run_AnyPricesAndShortTrips_IsNeverBeatenByABehaviourThatIsAsReadyAndEndsAsFull()
    {
        var compared = 0;
        Priced.Sample(
            problem =>
            {
                // Trips that need no more than the ordinary limit: limits bind least cost alone. Where several trips follow one another so
                // closely that the need adds up beyond it, only least cost fills up for them, and no behaviour is as ready.
                var least = Replay.Run(problem, Scheduler.Solve(problem, SolverChoice.Direct).Shares);
                for (var b = 0; b <= problem.Count; b++)
                {
                    Assert.True(least.StoredKwh[b] <= problem.UpperKwh[b] + 1e-6, $"{least.StoredKwh[b]} kWh above the limit");
                }

                foreach (var behaviour in BehaviourCases.All)
                {
                    var other = BehaviourSimulator.Run(problem, behaviour).Replay;
                    if (other.TripShortfallKwh.Sum() <= least.TripShortfallKwh.Sum() + 1e-9
                        && other.TargetShortfallKwh.Sum() <= least.TargetShortfallKwh.Sum() + 1e-9
                        && other.StoredKwh[^1] >= least.StoredKwh[^1] - 1e-9)
                    {
                        Interlocked.Increment(ref compared);
                        Assert.True(least.CostAt(problem) <= other.CostAt(problem) + 1e-6);
                    }
                }
            },
            seed: "0000KqYzTQa1",
            iter: 300);

        Assert.True(compared > 300, $"Too few comparable: {compared}.");
    }

    [Fact]
    public void Run_LongTripsToFull_TheTaperCostsLeastCostAtMostOneFifthPerCent()
    {
        // Near full the taper keeps overhead running, and charging that had to begin earlier may meet a dearer price. The LP knows neither.
        var frame = new YearFrame(SampleYear.Case(SampleYear.TimeOfUse()));
        var prices = PlanYear.Of(frame, frame.Question.RatePlans[0]).Prices;
        foreach (var supply in new[] { Sample.Receptacle, Sample.Hardwired })
        {
            var problem = frame.Problem(new SetUp("any", supply), prices);
            var best = Scheduler.Solve(problem, SolverChoice.Direct);

            var replay = TaperMakeUp.Run(problem, best);

            Assert.True(replay.TripShortfallKwh.Sum() <= best.TripShortfallKwh.Sum() + 0.01);
            Assert.InRange(replay.CostAt(problem), best.Cost * 0.998, best.Cost * 1.002);
            Assert.Contains(problem.Departures, d => d.RequiredKwh > 59);

            // Without the allowance wishes of a full battery are missed by the taper; with it they are met.
            Assert.Contains(Replay.Run(problem, best.Shares).TargetShortfallKwh, v => v > 0.1);
            for (var k = 0; k < problem.Departures.Length; k++)
            {
                Assert.True(replay.TargetShortfallKwh[k] <= best.TargetShortfallKwh[k] + 0.01, $"{k}: {replay.TargetShortfallKwh[k]}");
            }
        }
    }

    [Fact]
    public void Run_YearWithoutLongTrips_CostsLeastAndIsAsReadyAsOnArrival()
    {
        // With long trips the limits, which bind least cost alone, can make it dearer: it fills up in the last hour before departure.
        var question = SampleYear.Case(SampleYear.Flat(), SampleYear.TimeOfUse());
        var cells = YearComparison.Run(question with
        {
            Calendar = new DrivingCalendar(question.Calendar.Trips.Where(t => t.Distance.Miles < 100)),
        }).Cells;
        foreach (var group in cells.GroupBy(c => (c.SetUp.Name, c.RatePlan.Id)))
        {
            var least = group.Single(c => c.Behaviour is LeastCostKnownAhead);
            var arrival = group.Single(c => c.Behaviour is OnArrival);

            Assert.True(least.Readiness.Ready >= arrival.Readiness.Ready, group.Key.ToString());
            Assert.All(
                group,
                c => Assert.True(least.CarCost <= c.CarCost * 1.002m, $"{group.Key} {c.Behaviour!.Name}: {c.CarCost}, {least.CarCost}"));
        }
    }

    [Fact]
    public void Run_TimeOfUseAgainstOnArrival_MovesTheChargingToTheNight()
    {
        // On arrival at 17:30 on workdays the car meets the peak until 19:00; least cost charges at 0.07 nearly always.
        var cells = YearComparison.Run(SampleYear.Case(SampleYear.TimeOfUse()) with
        {
            SetUps = [new SetUp("receptacle", Sample.Receptacle)],
        }).Cells;

        var mean = cells.ToDictionary(c => c.Behaviour!.Name, c => (double)c.CarShare / c.Energy.HomeWallKwh);
        Assert.InRange(mean["leastCostKnownAhead"], 0.0699, 0.0725);
        Assert.InRange(mean["fixedStart"], 0.0699, 0.0725);
        Assert.InRange(mean["onArrival"], 0.15, 0.29);
    }

    private static readonly Gen<ChargingProblem> Priced =
        from miles in Gen.Double[0, 90].Array[8]
        from leaves in Gen.Double[0, 10].Array[8]
        from away in Gen.Double[0.5, 13].Array[8]
        from prices in Gen.Double[0.01, 0.6].Array[24 * 9]
        from supply in Gen.OneOf(Sample.Outlet, Sample.Receptacle, Sample.Hardwired)
        from mean in Gen.Double[-12, 30]
        from state in Gen.Double[0.1, 0.8]
        select ChargingProblemBuilder.Build(
            Sample.Question(supply, 0, state, Duration.FromDays(9), Enumerable.Range(0, 8).Select(
                d => Sample.Trip((24 * d) + Math.Round(leaves[d], 2), Math.Round(away[d], 2), miles[d]))) with
            {
                FinalState = StateOfCharge.FromFraction(0.8),
                Prices = new PriceSchedule(
                    prices.Select((p, h) => new PriceSpan(Sample.Monday + Duration.FromHours(h), (decimal)p, "")),
                    Sample.Monday + Duration.FromDays(9),
                    "USD"),
                Temperatures = new TemperatureForecast(
                    Sample.Monday,
                    Duration.FromHours(1),
                    Enumerable.Range(0, 24 * 9).Select(h => mean + (6 * Math.Sin(h * Math.PI / 12)))),
            });
}
