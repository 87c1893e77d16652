using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

/// <summary>Every plan of <c>tariffs/</c> over the year of random households, all invented: the optimum is the same by every road, and known ahead is not beaten.</summary>
public sealed class EveryPlanYearTests(ITestOutputHelper output)
{
    private const int Households = 50;

    // Of the plans those whose prices per kWh say all that charging at home changes (28 November 2026).
    private const int LeastPlans = 5;
    private const int Year = 2026;

    [Fact]
    public void Solve_EveryPlanWithoutCoupledCharges_IsEqualMergedUnmergedAndByTheLp()
    {
        var (ran, skipped) = (new List<string>(), new List<string>());
        foreach (var plan in RatePlanLibrary.All)
        {
            if (!Frame(plan, 0, out var first).Coupled.IsEmpty)
            {
                skipped.Add(plan.Id);
                continue;
            }

            ran.Add(plan.Id);
            Parallel.For(0, Households, seed =>
            {
                var year = Frame(plan, seed, out var frame);
                var problem = frame.Problem(frame.Question.SetUps[0], year.Prices);
                var direct = Scheduler.Solve(problem, SolverChoice.Direct);
                var unmerged = Scheduler.Solve(problem, SolverChoice.Direct, reduction: Reduction.Unmerged);
                var program = Scheduler.Solve(problem, SolverChoice.Glop);
                var tolerance = 1e-6 * Math.Max(1, Math.Abs(direct.Objective));
                Assert.False(program.LimitReached);
                Assert.Equal(direct.Objective, unmerged.Objective, tolerance);
                Assert.Equal(direct.Objective, program.Objective, tolerance);
                Assert.Equal(direct.TripShortfallKwh.Sum(), program.TripShortfallKwh.Sum(), 1e-6);
                Assert.Equal(direct.TargetShortfallKwh.Sum(), program.TargetShortfallKwh.Sum(), 1e-6);
            });
        }

        output.WriteLine($"Ran {ran.Count}: {string.Join(", ", ran)}. With charges that a price per kWh does not say {skipped.Count}: {string.Join(", ", skipped)}.");
        Assert.True(ran.Count >= LeastPlans, string.Join(", ", skipped));
    }

    [Fact]
    public void Run_EveryPlan_KnownAheadIsNoDearerThanByNightThatIsNoReadierAndAboveItsBound()
    {
        var plans = RatePlanLibrary.All;
        var found = new string[plans.Count];
        Parallel.For(0, plans.Count, i =>
        {
            var plan = Frame(plans[i], i, out var frame);
            var cells = YearComparison.Run(frame.Question).Cells.Where(c => c.RatePlan.Id == plan.Plan.Id).ToArray();
            var (ahead, night) = (cells.Single(c => c.Behaviour is LeastCostKnownAhead), cells.Single(c => c.Behaviour is LeastCostByNight));
            found[i] = FormattableString.Invariant($"{plan.Plan.Id}: known ahead {ahead.WholeHouseCost:0.00}, by night {night.WholeHouseCost:0.00}, bound {ahead.BoundCost:0.00}; convex {plan.Coupled.IsConvex}");
            if (night.Readiness.Ready >= ahead.Readiness.Ready && night.Readiness.OnTarget >= ahead.Readiness.OnTarget)
            {
                Assert.True(ahead.WholeHouseCost <= night.WholeHouseCost + 0.005m, found[i]);
            }

            if (plan.Coupled.HasBound)
            {
                Assert.True(ahead.BoundCost is { } bound && ahead.WholeHouseCost - bound <= Math.Max(1, 0.002m * bound) + (plan.Coupled.IsConvex ? 0 : 0.02m * bound), found[i]);
            }
        });
        Array.ForEach(found, output.WriteLine);
    }

    private static PlanYear Frame(RatePlan plan, int seed, out YearFrame frame)
    {
        var random = new Random(seed);
        var zone = new HouseholdZone(plan.Zone);
        var house = plan.Metering == Metering.WholeHouse ? plan : RatePlanLibrary.Find(plan.HousePlan!)!;
        var first = new LocalDate(Year, 1, 1);
        var prices = new PriceSeries(
            zone.StartOf(first), Duration.FromHours(1), [.. Enumerable.Range(0, 8760).Select(h => (decimal?)Math.Round(0.02m + (0.001m * random.Next(80)) + (h % 24 is > 16 and < 21 ? 0.05m : 0), 3))]);
        frame = new YearFrame(new YearCase
        {
            Zone = zone,
            Year = Year,
            Vehicle = new Vehicle
            {
                UsableEnergy = Energy.FromKilowattHours(35 + (50 * random.NextDouble())),
                OnBoardCharger = Power.FromKilowatts(11.5),
                OrdinaryLimit = StateOfCharge.FromFraction(0.7 + (0.2 * random.NextDouble())),
                Consumption = new Consumption { ReferenceKwhPerKm = 0.13 + (0.07 * random.NextDouble()) },
            },
            SetUps = [new SetUp("home", new Supply { VoltageV = random.Next(4) == 0 ? 120 : 240, BreakerA = 15 + (5 * random.Next(8)) })],
            RatePlans = house == plan ? [plan] : [house, plan],
            RatePlanInputs = new[] { plan, house }.DistinctBy(p => p.Id).ToDictionary(
                p => p.Id, p => new BillInput { Prices = p.PriceSeriesNames.ToDictionary(n => n, _ => prices) }),
            Behaviours = [new LeastCostKnownAhead(), new LeastCostByNight(new ForecastError { Seed = seed })],
            Calendar = Calendar(random, zone, first),
            Weather = new WeatherYear(
                Enumerable.Range(0, WeatherYear.Hours).Select(h => 8 - (13 * Math.Cos(((h / 24.0) - 20) * 2 * Math.PI / 365)) - (4 * Math.Cos((h - 3) * Math.PI / 12)) + (3 * Math.Sin((h / 61.0) + seed))),
                "invented",
                isTypical: true),
            HouseLoad = HouseLoad.Hourly(Enumerable.Range(0, WeatherYear.Hours).Select(h => 0.3 + (0.3 * random.NextDouble()) + Math.Exp(-Math.Pow((h % 24) - 18.5, 2) / 6))),
            AwayPricePerKwh = 0.45m,
            GridMinutes = 60,
        });
        return house == plan ? PlanYear.Of(frame, plan) : PlanYear.OfCarMeter(frame, plan, PlanYear.Of(frame, house));
    }

    private static DrivingCalendar Calendar(Random random, HouseholdZone zone, LocalDate first)
    {
        var trips = new List<Trip>();
        var (days, kilometres) = (3 + random.Next(3), 20 + (80 * random.NextDouble()));
        for (var day = first.PlusDays(1); day < first.PlusDays(363); day = day.PlusDays(1))
        {
            if ((int)day.DayOfWeek <= days || random.Next(3) == 0)
            {
                trips.Add(Trip.Plain(
                    zone.Departure(day + new LocalTime(6 + random.Next(3), random.Next(60))).Instant,
                    zone.Return(day + new LocalTime(15 + random.Next(5), random.Next(60))).Instant,
                    Distance.FromKilometres(random.Next(20) == 0 ? 250 : kilometres)));
            }
        }

        return new DrivingCalendar(trips);
    }
}
