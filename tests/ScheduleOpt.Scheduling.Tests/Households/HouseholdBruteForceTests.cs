using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>
/// Tiny households, two cars and two to four hours: every way of switching each car on (at its most or its least) and off by whole hours is looked at. No schedule leaves more unmet in the
/// strict order than the best of them, or costs more beyond the gap that the scheduler allows; and none of them beats the bound.
/// </summary>
public class HouseholdBruteForceTests
{
    private const int Households = 300;
    private const double SameKwh = 1e-5;

    [Fact]
    public void Schedule_AgainstEveryWayOfSwitching_IsAsGood()
    {
        var faults = new List<string>();
        var (equal, isShort, coupled) = (0, 0, 0);
        for (var seed = 0; seed < Households; seed++)
        {
            var problem = Tiny(seed);
            var schedule = HouseholdScheduler.Solve(problem);
            Assert.Empty(HouseholdCheck.Findings(problem, schedule));
            var mine = Unmet(problem, [.. schedule.Cars.Select(c => c.StoredKwh)]);
            var (best, cost) = Enumerated(problem);
            var order = Compare(mine, best);
            coupled += schedule.Route != SolveRoute.Shares ? 1 : 0;
            isShort += mine.Sum() > SameKwh ? 1 : 0;
            if (order > 0)
            {
                faults.Add($"seed {seed}: {string.Join(", ", mine)} unmet; switching by hours leaves {string.Join(", ", best)} {Words(problem, schedule)}");
            }

            if (order != 0)
            {
                continue;
            }

            equal++;
            var room = Math.Max(HouseholdScheduler.FineGapAtLeast, HouseholdScheduler.FineGapShare * Math.Abs(cost));
            if (schedule.Objective > cost + (2 * room) + 1e-6)
            {
                faults.Add($"seed {seed}: {schedule.Objective}; switching by hours costs {cost}");
            }

            if (schedule.Bound > cost + 1e-5)
            {
                faults.Add($"seed {seed}: bound {schedule.Bound} above {cost}");
            }
        }

        Assert.True(faults.Count == 0, string.Join(Environment.NewLine, faults.Take(30)));
        Assert.True(equal > Households / 3 && isShort > Households / 10 && coupled > Households / 2, $"{equal} equal, {isShort} short, {coupled} coupled");
    }

    private static string Words(HouseholdProblem problem, HouseholdSchedule schedule) => string.Join(
        "; ",
        problem.Cars.Select((c, k) => $"{c.Name} {c.MostA.Max()} A, leaves {c.Problem.Departures[0].Boundary} with {c.Problem.Departures[0].RequiredKwh}, upper {c.Problem.UpperKwh[^1]}, {c.Rules}: "
            + string.Join(' ', schedule.Cars[k].CurrentA.Zip(schedule.Cars[k].Shares, (a, s) => $"{a}*{s}")))
        .Append($"circuit {(problem.Circuits.Count > 0 ? problem.Circuits[0].MostA : 0)}, import {problem.ImportLimitKw}, house {string.Join(' ', problem.HouseKw)}, solar {string.Join(' ', problem.SolarKw)}, {schedule.Route}, stopped {schedule.LimitReached}"));

    private static HouseholdProblem Tiny(int seed)
    {
        var random = new Random(seed);
        var n = 2 + random.Next(3);
        double[] Draw(Func<double> one) => [.. Enumerable.Range(0, n).Select(_ => one())];
        bool Often(int oneIn) => random.Next(oneIn) == 0;
        var adjustable = Often(3);
        var rules = new RunningRules
        {
            Adjustable = adjustable,
            MostWindows = Often(4) ? 1 : null,
            LeastOn = NodaTime.Duration.FromHours(Often(4) ? 1 + random.Next(2) : 0),
        };
        HandMadeCar Car()
        {
            var most = 3 + random.Next(5);
            var leaves = 1 + random.Next(n);

            // Mostly whole hours' energy; sometimes more than there is time for.
            var wish = most * random.Next(Often(4) ? n + 2 : leaves + 1);
            return new()
            {
                MostKw = most,
                LeastA = adjustable ? 2 : 1,
                Required = wish,
                LeavesAt = leaves,
                Departures = [new(leaves, n, wish, 0, 0)],
                Initial = 0,
                Rules = rules,
                EndValue = Often(3) ? Math.Round(0.2 * random.NextDouble(), 3) : 0,
                Room = Often(4) ? wish + most : 1000,
            };
        }

        var solar = Often(3) ? Draw(() => random.Next(6)) : new double[n];
        var terms = new List<PriceTerm>();
        if (Often(2))
        {
            terms.Add(new DemandTerm("demand", HandMade.Hours(-200, 200), true, [HandMade.Hours(-200, 200)], NodaTime.Duration.FromHours(1), false, 2, 0, 2, [new(null, random.Next(1, 4) / 10m)], null));
        }

        if (Often(3))
        {
            PriceBlock[] blocks = Often(2) ? [new(20, 0.1m), new(null, 0.3m)] : [new(20, 0.3m), new(null, 0.1m)];
            terms.Add(new BlockTerm("blocks", HandMade.Hours(-200, 200), blocks[0].PricePerKwh < blocks[1].PricePerKwh, [HandMade.Hours(-200, 200)], 10, blocks, 0, false));
        }

        if (Often(4))
        {
            terms.Add(new MinimumTerm("minimum", HandMade.Hours(-200, 200), 20, 19));
        }

        return new HandMade(n)
        {
            Import = Draw(() => Math.Round(random.NextDouble() / 2, 2)),
            House = Draw(() => random.Next(3)),
            Solar = solar,
            Export = [.. solar.Select(_ => 0.05)],
            CircuitA = Often(2) ? 5 + random.Next(8) : null,
            ImportLimit = Often(3) ? 5 + random.Next(8) : null,
            Terms = terms,
            Cars = [Car(), Car()],
        }.Build();
    }

    /// <summary>The best by the strict order, then by cost less the value of what is stored at the end.</summary>
    private static (double[] Unmet, double Cost) Enumerated(HouseholdProblem problem)
    {
        var n = problem.Count;
        double[] Levels(HouseholdCar car) => car.Rules.Adjustable ? [0, car.LeastA, car.MostA.Max()] : [0, car.MostA.Max()];
        var ways = problem.Cars.Select(car => Ways(car, Levels(car), n)).ToArray();
        (double[] Unmet, double Cost)? best = null;
        foreach (var first in ways[0])
        {
            foreach (var second in ways[1])
            {
                if (!KeepsLimits(problem, first, second))
                {
                    continue;
                }

                double[][] stored = [Stored(problem.Cars[0], first), Stored(problem.Cars[1], second)];
                var unmet = Unmet(problem, stored);
                if (best is { } b && Compare(unmet, b.Unmet) > 0)
                {
                    continue;
                }

                var (bill, carbon) = NaiveHouseholdCost.Of(problem, [.. first.Zip(second, (x, y) => x + y)]);
                var cost = bill + carbon - problem.Cars.Select((c, k) => c.Problem.EndValuePerKwh * stored[k][^1]).Sum();
                if (best is not { } known || Compare(unmet, known.Unmet) < 0 || cost < known.Cost)
                {
                    best = (unmet, cost);
                }
            }
        }

        return best!.Value;
    }

    // An ampere is a kilowatt.
    private static List<double[]> Ways(HouseholdCar car, double[] levels, int n)
    {
        var ways = new List<double[]>();
        for (var code = 0; code < Math.Pow(levels.Length, n); code++)
        {
            var way = new double[n];
            for (int i = 0, rest = code; i < n; i++, rest /= levels.Length)
            {
                way[i] = levels[rest % levels.Length];
            }

            var leaves = car.Problem.Departures[0].Boundary;
            if (way.Skip(leaves).Any(kw => kw > 0) || Stored(car, way).Zip(car.Problem.UpperKwh).Any(p => p.First > p.Second + 1e-9))
            {
                continue;
            }

            var (windows, ok) = (0, true);
            for (var i = 0; i < leaves; i++)
            {
                if (way[i] > 0 && (i == 0 || way[i - 1] == 0))
                {
                    windows++;
                    for (var j = i; j < leaves && j - i < car.Rules.LeastOn.TotalHours; j++)
                    {
                        ok &= way[j] > 0;
                    }
                }
            }

            if (ok && !(windows > car.Rules.MostWindows))
            {
                ways.Add(way);
            }
        }

        return ways;
    }

    private static bool KeepsLimits(HouseholdProblem problem, double[] first, double[] second)
    {
        for (var i = 0; i < first.Length; i++)
        {
            var sum = first[i] + second[i];
            if ((problem.Circuits.Count > 0 && sum > problem.Circuits[0].MostA + 1e-9)
                || (problem.ImportLimitKw is { } limit && sum > Math.Max(0, limit - problem.HouseKw[i] + problem.SolarKw[i]) + 1e-9))
            {
                return false;
            }
        }

        return true;
    }

    private static double[] Stored(HouseholdCar car, double[] kw)
    {
        var stored = new double[kw.Length + 1];
        stored[0] = car.Problem.InitialKwh;
        for (var i = 0; i < kw.Length; i++)
        {
            stored[i + 1] = stored[i] + kw[i];
        }

        return stored;
    }

    /// <summary>What each departure misses, in order of time; of one moment in the order of the cars.</summary>
    private static double[] Unmet(HouseholdProblem problem, double[][] stored) =>
        [.. problem.Cars.Select((car, c) => (Car: c, Departure: car.Problem.Departures[0])).OrderBy(d => d.Departure.Boundary).ThenBy(d => d.Car)
            .Select(d => Math.Max(0, d.Departure.RequiredKwh - stored[d.Car][d.Departure.Boundary]))];

    private static int Compare(double[] mine, double[] theirs)
    {
        for (var k = 0; k < mine.Length; k++)
        {
            if (Math.Abs(mine[k] - theirs[k]) > SameKwh)
            {
                return mine[k] < theirs[k] ? -1 : 1;
            }
        }

        return 0;
    }
}
