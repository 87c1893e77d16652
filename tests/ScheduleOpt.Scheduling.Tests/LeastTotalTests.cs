using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Scheduling.Tests.Households;

namespace ScheduleOpt.Scheduling.Tests;

/// <summary>
/// Least totals in the strict order: no kWh more of away charging in all, however much later targets would gain by it. Of equal totals away charging may be planned on an earlier trip, one that the battery
/// could serve: then the target of a later departure is met with the same energy.
/// </summary>
public class LeastTotalTests
{
    private const int Home = 3;

    // Two trips of 8 kWh from 16 kWh, a minimum of 6, nothing to be had at home. 16 - 8 = 8 at the second departure, which asks for 14; of its trip 8 - 6 = 2 are there and 6 are short.
    // The same 6 kWh taken on the first trip leave 14 at the second departure: nothing is missed there.
    [Fact]
    public void Total_ThatIsTheSameOnEitherTrip_IsTakenWhereTheTargetGains()
    {
        var problem = TwoTrips(secondDrive: 8);
        Shows(Scheduler.Solve(problem), [0, 6], [0, 6]);
        Shows(Scheduler.Solve(problem, order: ShortfallOrder.LeastTotal), [6, 0], [0, 0]);
    }

    // The second trip takes 2 kWh alone: the battery can serve both, 16 - 8 - 2 = 6. Away charging on the first would spare the target its 6 kWh, and is not called for.
    [Fact]
    public void Trips_ThatTheBatteryCanServe_AreNotChargedOnForALaterTarget()
    {
        var problem = TwoTrips(secondDrive: 2);
        Shows(Scheduler.Solve(problem, order: ShortfallOrder.LeastTotal), [0, 0], [0, 6]);
        var household = new HandMade(problem.Count)
        {
            Cars = [new() { Change = p => TwoTrips(p, 2), Initial = 16, Room = 84, Departures = problem.Departures, Rules = new() { Adjustable = true, WholeAmperes = true } }],
        }.Build();
        var schedule = HouseholdScheduler.Solve(household, ShortfallOrder.LeastTotal).Cars[0];
        Assert.Equal(0, schedule.TripShortfallKwh.Sum(), 1e-6);
        Assert.Equal(6, schedule.TargetShortfallKwh.Sum(), 1e-6);
    }

    // Every way of storing whole kWh at home and taking whole kWh on the way: with whole data the optimum of this network is whole.
    [Fact]
    public void Totals_AgainstEveryWay_AreTheLeastInTheStrictOrder()
    {
        var (trips, targetsAlone, moved) = (0, 0, 0);
        for (var seed = 0; seed < 150; seed++)
        {
            var problem = Random(seed);
            var found = Scheduler.Solve(problem, order: ShortfallOrder.LeastTotal);
            var (trip, target, cost) = Ways(problem).Min();
            Assert.False(found.LimitReached);
            Assert.True(Math.Abs(found.TripShortfallKwh.Sum() - trip) < 1e-6, $"seed {seed}: trips {found.TripShortfallKwh.Sum()}, least {trip}");
            Assert.True(Math.Abs(found.TargetShortfallKwh.Sum() - target) < 1e-6, $"seed {seed}: targets {found.TargetShortfallKwh.Sum()}, least {target}");
            Assert.True(Math.Abs(found.Cost - cost) < 1e-5, $"seed {seed}: cost {found.Cost}, least {cost}");
            trips += trip > 0 ? 1 : 0;
            targetsAlone += trip == 0 && target > 0 ? 1 : 0;
            moved += Scheduler.Solve(problem).TargetShortfallKwh.Sum() > target + 0.5 ? 1 : 0;
        }

        Assert.True(trips > 20 && targetsAlone > 20 && moved > 5, $"{trips}, {targetsAlone}, {moved}");
    }

    // One hour on a circuit of 40 A: the first car draws 1 kW for a trip of 1 kWh, the second 40 kW for a target alone. With whole hours one of them waits.
    [Fact]
    public void Integers_OfLeastTotals_SpareNoTargetByATrip()
    {
        var rules = new RunningRules();
        var problem = new HandMade(2)
        {
            CircuitA = 40,
            Cars =
            [
                new() { MostKw = 1, LeavesAt = 1, Change = p => p.DriveKwh[1] = 1, Departures = [new(1, 2, 0, 1, 5)], Rules = rules },
                new() { MostKw = 40, LeavesAt = 1, Departures = [new(1, 2, 40, 0, 0)], Rules = rules },
            ],
        }.Build();
        foreach (var order in Enum.GetValues<ShortfallOrder>())
        {
            var plan = OnOffPlan.Integers(HouseholdRelaxation.Solve(problem).Until(2), throughout: true);
            var least = StrictOrder.LeastMissed(plan, order, SolveLimit.Default);
            Assert.True(least.IsSolved);
            Assert.Equal(0, least.Shortfalls.Trips, 1e-5);
            Assert.Equal(40, least.Shortfalls.Targets, 1e-5);
        }
    }

    private static void Shows(LeastCost found, double[] trips, double[] targets)
    {
        for (var k = 0; k < trips.Length; k++)
        {
            Assert.Equal(trips[k], found.TripShortfallKwh[k], 1e-6);
            Assert.Equal(targets[k], found.TargetShortfallKwh[k], 1e-6);
        }
    }

    private static ChargingProblem TwoTrips(double secondDrive) => new HandMade(3)
    {
        Cars = [new() { Change = p => TwoTrips(p, secondDrive), Initial = 16, Room = 84, Departures = [new(0, 1, 0, 8, 40), new(2, 3, 14, secondDrive, 40)] }],
    }.Build().Cars[0].Problem;

    private static void TwoTrips(ChargingProblem problem, double secondDrive)
    {
        Array.Clear(problem.MostA);
        Array.Clear(problem.NetKw);
        Array.Fill(problem.LowerKwh, 6);
        (problem.Place[0], problem.Place[2]) = (Place.Road, Place.Road);
        (problem.DriveKwh[0], problem.DriveKwh[2]) = (8, secondDrive);
    }

    /// <summary>Three hours at home, a trip of an hour after each.</summary>
    private static ChargingProblem Random(int seed)
    {
        var random = new Random(seed);
        var minimum = random.Next(3);
        return new HandMade(2 * Home)
        {
            Import = [.. Enumerable.Range(0, 2 * Home).Select(_ => random.Next(1, 9) / 20.0)],
            Cars =
            [
                new()
                {
                    Initial = minimum + random.Next(6),
                    Room = random.Next(2, 6),
                    Departures = [.. Enumerable.Range(0, Home).Select(k => new DepartureTarget((2 * k) + 1, (2 * k) + 2, random.Next(9), 0, 0))],
                    Change = p =>
                    {
                        Array.Fill(p.LowerKwh, minimum);
                        for (var i = 0; i < p.Count; i++)
                        {
                            var road = i % 2 == 1;
                            p.Place[i] = road ? Place.Road : Place.Home;
                            p.MostA[i] = p.WallKw[i] = p.NetKw[i] = road ? 0 : random.Next(4);
                            p.DriveKwh[i] = road ? random.Next(5) : 0;
                        }
                    },
                },
            ],
        }.Build().Cars[0].Problem;
    }

    private static IEnumerable<(int Trip, int Target, double Cost)> Ways(ChargingProblem problem) => Ways(problem, 0, (int)problem.InitialKwh, 0, 0, 0);

    private static IEnumerable<(int Trip, int Target, double Cost)> Ways(ChargingProblem problem, int i, int stored, int trip, int target, double cost)
    {
        if (i == problem.Count)
        {
            yield return (trip, target, cost);
            yield break;
        }

        var road = problem.Place[i] == Place.Road;
        var missed = road ? Math.Max(0, (int)problem.Departures[i / 2].RequiredKwh - stored) : 0;
        var most = (int)(road ? problem.DriveKwh[i] : problem.NetKw[i]);
        for (var taken = 0; taken <= most; taken++)
        {
            var after = stored + taken - (int)problem.DriveKwh[i];
            if (after < problem.LowerKwh[i + 1] || after > problem.UpperKwh[i + 1])
            {
                continue;
            }

            var way = (Trip: trip + (road ? taken : 0), Cost: cost + (road ? 0 : taken * problem.Price[i]));
            foreach (var complete in Ways(problem, i + 1, after, way.Trip, target + missed, way.Cost))
            {
                yield return complete;
            }
        }
    }
}
