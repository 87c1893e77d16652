using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Comparison.Tonight.Timers;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tests.Tonight.Timers;

/// <summary>Timers where charges are coupled: costed by the whole bill, within what circuit and import limit leave.</summary>
public class CoupledTimerTests
{
    [Fact]
    public void Demand_ALowCurrentAllNightCostsLessThanTheFullOneForAWhile()
    {
        // 20.7672 kWh in 12 h at 0.10 a kWh and 10.00 a kW. (0.93 p - 0.22) * 12 = 20.7672: p = 2.0974 kW, 8.739 A, all night; at 32 A a kW is 7.68.
        Interval month = new(CoupledNights.At(-200), CoupledNights.At(300));
        var demand = new DemandTerm("demand", month, true, [month], Duration.FromHours(1), false, 0, 0, 0, [new(null, 10)], null);
        var car = Sample.Question(Sample.Receptacle, 20, 0.5, Duration.FromHours(48), Sample.Trip(12, 36, 0, target: (30 + (3 * 6.9224)) / 60)) with
        {
            Vehicle = Sample.Car with { OrdinaryLimit = Core.StateOfCharge.FromFraction(0.9) },
            GridStep = Duration.FromHours(1),
            Prices = new PriceSchedule([new(Sample.Monday, 0.10m, "all hours")], CoupledNights.At(60), "USD", terms: [demand]),
        };
        var question = new NightQuestion(new HouseholdCase { Cars = [new("car", car, new RunningRules { Adjustable = true })] });
        var plan = NightPlanner.Plan(question);
        var kw = ((20.7672 / 12) + 0.22) / 0.93;

        // The schedule may do a little better: at the ends of its window more current for a part of an hour has the same average and less overhead.
        Assert.InRange(plan.Cost, kw * 11, kw * 11.2);
        var timers = TimerFallbacks.Of(question, plan);
        Assert.InRange(timers.StartTime!.CurrentA, kw / 0.24, 8.81);
        Assert.True(timers.StartTime.IsAsReady);
        Assert.InRange(plan.Cost + timers.StartTime.Nights[0].ExtraBill, kw * 11.19, 8.81 * 0.24 * 11.25);
        Assert.True(timers.SingleCurrent!.CurrentA < 32 && timers.SingleCurrent.ExtraBill < 7.68 * 2, $"{timers.SingleCurrent.CurrentA} A, {timers.SingleCurrent.ExtraBill}");
    }

    [Fact]
    public void RandomNights_CostIsThatOfTheWholeBill_AndEveryLimitHolds()
    {
        var (settings, nights) = (0, 0);
        for (var seed = 0; seed < 15; seed++)
        {
            var question = CoupledNights.Of(seed);
            var plan = NightPlanner.Plan(question);
            for (var c = 0; c < plan.Cars.Count; c++)
            {
                var timers = TimerFallbacks.Of(question, plan, c);
                foreach (var setting in new[] { timers.StartTime, timers.FinishTime }.OfType<TimerSetting>())
                {
                    settings++;
                    nights += setting.Nights.Count;
                    Assert.True(Math.Abs(Anew(plan, c, setting) - setting.Nights.Sum(n => n.ExtraBill)) < 0.01, $"seed {seed}, car {c}: {Anew(plan, c, setting)}, {setting.Nights.Sum(n => n.ExtraBill)}");
                    KeepsLimits(plan, c, setting);
                }

                Assert.NotNull(timers.SingleCurrent);
            }
        }

        Assert.True(settings > 20 && nights > settings, $"{settings} settings, {nights} nights");
    }

    [Fact]
    public void SingleRunThatDoesNotFitBesideTheOtherCar_IsShortAndSaysWhy()
    {
        // One circuit for one car at a time. The first leaves after 3 h and has the one cheap hour, 2 to 3; the second needs 5 of its 7 hours at home, some before and some after.
        ChargingCase Car(double hours, double leaves) =>
            Sample.Question(Sample.Receptacle, 20, 0.2, Duration.FromHours(48), Sample.Trip(leaves, 46 - leaves, 0, target: 0.2 + (hours * 6.9224 / 60))) with
            {
                GridStep = Duration.FromHours(1),
                Prices = new PriceSchedule(
                    [new(Sample.Monday, 0.30m, "a"), new(CoupledNights.At(2), 0.05m, "b"), new(CoupledNights.At(3), 0.25m, "c")], CoupledNights.At(60), "USD"),
            };
        var question = new NightQuestion(new HouseholdCase
        {
            Cars = [new("first", Car(1, 3), RunningRules.FullCurrent), new("second", Car(6, 7), RunningRules.FullCurrent)],
            SharedCircuitA = 32,
        });
        var plan = NightPlanner.Plan(question);
        Assert.Equal(NightOutcome.Ready, plan.Outcome);
        var timers = TimerFallbacks.Of(question, plan, 1);
        Assert.Equal(2 * 6.9224, timers.StartTime!.MissingKwh, 2);
        Assert.Equal(CoupledNights.At(3), timers.StartTime.Nights[0].Start);
        Assert.Contains("the shared circuit", timers.WhyNot);
        Assert.Null(TimerFallbacks.Of(question, plan, 0).WhyNot);
    }

    /// <summary>The bill with the timer in place of the car's windows in the stays in which it runs, less that of the schedule: every car run through the replay anew.</summary>
    private static double Anew(NightPlan plan, int car, TimerSetting setting)
    {
        var own = plan.Cars[car];
        var windows = new List<ChargingWindow>();
        var currents = (double[])own.CurrentA.Clone();
        foreach (var night in setting.Nights)
        {
            windows.Add(new(night.Start, night.End));
        }

        var kept = own.Windows.Where(w => !setting.Nights.Any(n => SameStay(own.Problem, n.Start, w.Start))).ToArray();
        for (var i = 0; i < currents.Length; i++)
        {
            var at = own.Problem.Boundaries[i];
            currents[i] = windows.Any(w => w.Start < own.Problem.Boundaries[i + 1] && w.End > at) ? setting.CurrentA : currents[i];
        }

        var run = CarRun.Of(own.Car, own.Planned, currents, [.. windows.Concat(kept).OrderBy(w => w.Start)]);
        double Bill(Scheduling.ReplayResult replay) =>
            HouseholdBill.Of(plan.Problem, HouseholdBill.ChargingKw(plan.Problem, [.. plan.Cars.Select((c, k) => k == car ? replay : c.Replay)])).Bill;
        return Bill(run.Replay) - Bill(own.Replay);
    }

    private static bool SameStay(ChargingProblem problem, Instant one, Instant other) =>
        problem.Departures.Count(d => problem.Boundaries[d.Boundary] <= one) == problem.Departures.Count(d => problem.Boundaries[d.Boundary] <= other);

    private static void KeepsLimits(NightPlan plan, int car, TimerSetting setting)
    {
        foreach (var night in setting.Nights)
        {
            for (var i = 0; i < plan.Problem.Count; i++)
            {
                if (night.Start >= plan.Problem.Boundaries[i + 1] || night.End <= plan.Problem.Boundaries[i])
                {
                    continue;
                }

                var others = plan.Cars.Where((_, c) => c != car).Sum(c => c.CurrentA[i]);
                Assert.True(setting.CurrentA <= plan.Cars[car].Car.MostA[i] + 1e-6);
                Assert.True(plan.Problem.Circuits.Count == 0 || others + setting.CurrentA <= plan.Problem.Circuits[0].MostA + 1e-6);
                Assert.True(plan.Problem.ImportLimitKw is not { } limit
                    || plan.Problem.HouseKw[i] - plan.Problem.SolarKw[i] + ((others + setting.CurrentA) * 0.24) <= limit + 1e-6);
            }
        }
    }
}
