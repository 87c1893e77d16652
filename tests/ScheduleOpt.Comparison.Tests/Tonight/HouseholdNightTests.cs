using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Comparison.Tonight.Explanations;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Comparison.Tests.Tonight;

/// <summary>Nights of several cars, by hand and on random households; what happens when the check finds something.</summary>
public class HouseholdNightTests
{
    private const double Full = (30 + (3 * 6.9224)) / 60;

    private static readonly Instant Cheap = Sample.Monday + Duration.FromHours(4);

    /// <summary>Two cars at 7.68 kW (6.9224 kW stored) on one circuit of 32 A: they can't charge at once. Each lacks 20.7672 kWh, three hours, by 12 h; four cheap hours, 4 to 8; 0.05 after the return.</summary>
    private static HouseholdCase TwoCars(double sharedA = 32, double? importKw = null)
    {
        ChargingCase Car() => Sample.Question(Sample.Receptacle, 20, 0.5, Duration.FromHours(60), Sample.Trip(12, 36, 0, target: Full)) with
        {
            Vehicle = Sample.Car with { OrdinaryLimit = Core.StateOfCharge.FromFraction(Full) },
            Prices = new PriceSchedule(
                [new(Sample.Monday, 0.30m, "dear"), new(Cheap, 0.10m, "cheap"), new(Cheap + Duration.FromHours(4), 0.30m, "dear"), new(Sample.Monday + Duration.FromHours(48), 0.05m, "later")],
                Sample.Monday + Duration.FromHours(60),
                "USD"),
        };
        return new HouseholdCase
        {
            Cars = [new("first", Car(), RunningRules.FullCurrent), new("second", Car(), RunningRules.FullCurrent)],
            SharedCircuitA = sharedA,
            ImportLimitKw = importKw,
        };
    }

    [Fact]
    public void TwoCars_OnOneCircuit_ShareTheCheapHours()
    {
        var plan = NightPlanner.Plan(new NightQuestion(TwoCars()));
        Assert.Empty(plan.CheckFindings);
        Assert.Equal(NightOutcome.Ready, plan.Outcome);
        Assert.Equal(7.68 * ((4 * 0.10) + (2 * 0.30)), plan.Cost, 2);
        foreach (var a in plan.Cars[0].Steps)
        {
            Assert.All(plan.Cars[1].Steps, b => Assert.True(a.End <= b.Start || b.End <= a.Start));
        }

        // On arrival the first takes hours 0 to 3, the second after it hours 3 to 6: four of them are dear.
        Assert.Equal(7.68 * ((4 * 0.30) + (2 * 0.10)), plan.CostOnArrival, 2);
        Assert.Equal(BindingKind.Household, NightExplanations.Of(plan)[0].Explanation.Bindings[0].Kind);
    }

    [Fact]
    public void CheckThatFinds_ChargesOnArrivalWithinEveryLimit()
    {
        foreach (var question in new[] { TwoCars(), TwoCars(sharedA: 64, importKw: 8) })
        {
            var plan = NightPlanner.Plan(new NightQuestion(question), (_, _, _) => ["forced"]);
            Assert.Equal(["forced"], plan.CheckFindings);
            Assert.Contains(plan.Warnings, w => w.Contains("charges on arrival instead"));
            Assert.Equal(Sample.Monday, plan.Cars[0].Windows[0].Start);
            Assert.Equal(plan.CostOnArrival, plan.Cost, 9);
            for (var i = 0; i < plan.Problem.Count; i++)
            {
                Assert.True(plan.Cars.Sum(c => c.CurrentA[i]) <= 32 + 1e-9);
            }
        }
    }

    [Fact]
    public void RandomHouseholds_PassTheirChecksAfterTheReplay_AndAreEqualTwice()
    {
        for (var seed = 0; seed < 40; seed++)
        {
            var question = new NightQuestion(Joined(seed));
            var plan = NightPlanner.Plan(question);
            Assert.True(plan.CheckFindings.Count == 0, $"seed {seed}: {string.Join("; ", plan.CheckFindings)}");
            Assert.True(plan.Cost + plan.CarbonCost >= plan.BoundCost - 0.02, $"seed {seed}: {plan.Cost} below {plan.BoundCost}");
            if (seed < 5)
            {
                var again = NightPlanner.Plan(question);
                Assert.Equal(plan.Cars.SelectMany(c => c.Steps), again.Cars.SelectMany(c => c.Steps));
                Assert.Equal((plan.Cost, plan.BoundCost), (again.Cost, again.BoundCost));
            }
        }
    }

    [Fact]
    public void NightsOfTheClockChanges_HaveAllTheirHours()
    {
        // Chicago 2026: 8 March has 23 hours, 1 November 25. Plugged in at 18:00 the day before, leaving at 07:00 local: 12 and 14 hours. Six kWh an hour short of all of them.
        foreach (var (year, month, day, hours) in new[] { (2026, 3, 7, 12), (2026, 10, 31, 14) })
        {
            var zone = Sample.Chicago.Zone;
            var start = zone.AtStrictly(new LocalDateTime(year, month, day, 18, 0)).ToInstant();
            var leaves = zone.AtStrictly(new LocalDateTime(year, month, day, 7, 0).PlusDays(1)).ToInstant();
            Assert.Equal(hours, (leaves - start).TotalHours);
            var question = Sample.Question(Sample.Outlet, 20, 0.2, Duration.FromHours(48)) with
            {
                Start = start,
                End = start + Duration.FromHours(48),
                Prices = Sample.Flat(start, start + Duration.FromHours(48)),
                Calendar = new([Core.Driving.Trip.Plain(leaves, leaves + Duration.FromHours(20), Core.Distance.FromMiles(5), Core.StateOfCharge.FromFraction(0.7))]),
            };
            var plan = NightPlanner.Plan(new NightQuestion(question));
            Assert.Empty(plan.CheckFindings);

            // 1.44 kW store 1.44 * 0.93 - 0.22 = 1.1192 kW.
            Assert.Equal(12 + (hours * 1.1192), plan.Cars[0].Departures[0].StoredKwh, 2);
            Assert.Equal((start, leaves), (plan.Cars[0].Windows[0].Start, plan.Cars[0].Windows[0].End));
        }
    }

    /// <summary>Two random cars of one span, prices and temperatures, on a circuit that is too small for both, some under an import limit.</summary>
    private static HouseholdCase Joined(int seed)
    {
        var random = new Random(seed);
        var first = RandomCases.Case(seed) with { GridStep = Duration.FromMinutes(30) };
        first = first with { Supply = first.Supply ?? Sample.Receptacle };
        var second = first with
        {
            Supply = Sample.Receptacle,
            Vehicle = Sample.Car,
            PluggedInAt = Core.StateOfCharge.FromFraction(random.NextDouble()),
            Calendar = new(first.Calendar.Trips.Where((_, k) => k % 2 == 0)),
        };
        return new HouseholdCase
        {
            Cars = [new("first", first, new RunningRules { Adjustable = random.Next(2) == 0 }), new("second", second, new RunningRules { Adjustable = random.Next(2) == 0 })],
            SharedCircuitA = 16 + random.Next(24),
            ImportLimitKw = random.Next(2) == 0 ? 6 + (6 * random.NextDouble()) : null,
            House = random.Next(2) == 0 ? new(first.Start, Duration.FromHours(1), [.. Enumerable.Range(0, 300).Select(_ => 2 * random.NextDouble())]) : null,
        };
    }
}
