using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Tests.Options;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>One grid for all cars, cut where anything of the household changes.</summary>
public class HouseholdProblemBuilderTests
{
    [Fact]
    public void Grid_IsCutAtEverythingThatChanges()
    {
        var demand = new DemandTerm("peak", Houses.January, true, [new(Nights.At(21, 10), Nights.At(22, 40))], Duration.FromMinutes(20), false, 0, 0, 0, [new(null, 8)], null);
        var block = new BlockTerm("blocks", Houses.January, true, [new(Nights.At(19, 3), Nights.At(19, 4))], 0, [new(null, 0.2m)], 0, false);
        var question = Houses.Two(
            Nights.Plain() with { NoCharging = [new(Nights.At(20, 1), Nights.At(20, 2))] },
            Nights.Plain() with { CurrentLimits = [new(new(Nights.At(20, 3), Nights.At(20, 4)), 10)], FinishMargin = Duration.FromMinutes(7) }) with
        {
            House = new PowerForecast(Nights.At(18, 5), Duration.FromMinutes(10), [1, 2]),
            Solar = new PowerForecast(Nights.At(36, 6), Duration.FromMinutes(10), [3]),
            CarbonPrice = [new(Nights.At(18), 0.01m, ""), new(Nights.At(18, 8), 0.02m, "")],
        };
        question = question with { Cars = [.. question.Cars.Select(c => c with { Case = c.Case with { Prices = Nights.Prices(terms: [demand, block]) } })] };
        var problem = HouseholdProblemBuilder.Build(question);
        Instant[] cuts =
        [
            Nights.At(20, 1), Nights.At(20, 2), Nights.At(20, 3), Nights.At(20, 4), Nights.At(29, 53), Nights.At(18, 5), Nights.At(18, 25), Nights.At(36, 6),
            Nights.At(36, 16), Nights.At(18, 8), Nights.At(21, 10), Nights.At(22, 40), Nights.At(19, 3), Nights.At(19, 4),
            Nights.At(21, 20), Nights.At(21, 40), Nights.At(22, 20),
        ];
        Assert.All(cuts, c => Assert.Contains(c, problem.Boundaries));
        Assert.All(problem.Cars, c => Assert.Equal(problem.Boundaries, c.Problem.Boundaries));
        Assert.Equal([0.0, 1, 2, 2, 0], new[] { Nights.At(18), Nights.At(18, 5), Nights.At(18, 15), Nights.At(18, 15), Nights.At(18, 25) }.Select(at => At(problem, problem.HouseKw, at)));
        Assert.Equal(3, At(problem, problem.SolarKw, Nights.At(36, 15)));
        Assert.Equal(0.02, At(problem, problem.CarbonPrice, Nights.At(18, 15)));
        Assert.Equal(0.10, At(problem, problem.ImportPrice, Nights.At(23)));
    }

    [Fact]
    public void AveragesUnderWayAtTheStart_AndSlidingOnes()
    {
        // From 18:00Z with averages of 40 min, multiples of 2,400 s since the epoch: 18:00Z begins one; of 25 min, multiples of 1,500 s, 17:50Z.
        Instant[] boundaries = [Nights.At(18), Nights.At(18, 15), Nights.At(18, 30), Nights.At(19)];
        DemandTerm Of(int minutes, bool sliding, int fromMinute = 0) =>
            new("peak", Houses.January, true, [new(Nights.At(18) + Duration.FromMinutes(fromMinute), Nights.At(18, 40))], Duration.FromMinutes(minutes), sliding, 0, 0, 0, [], null);
        Assert.Equal([Nights.At(18, 15)], AveragingWindows.Of(Of(25, false), boundaries).Select(w => w.Start));
        Assert.Equal([Nights.At(17, 50), Nights.At(18, 15)], AveragingWindows.Of(Of(25, false, -10), boundaries).Select(w => w.Start));
        Assert.Equal([Nights.At(18, 15)], AveragingWindows.Of(Of(25, false, -9), boundaries).Select(w => w.Start));
        Assert.Equal([Nights.At(18)], AveragingWindows.Of(Of(40, false), boundaries).Select(w => w.Start));
        Assert.Equal(boundaries[..3], AveragingWindows.Of(Of(60, true), boundaries).Select(w => w.Start));
    }

    [Fact]
    public void WholeAmperes_AreRoundedDown()
    {
        // 11 kW at 240 V draw 45.8 A; 40 A breaker: 32 A; with 3.6 kW on board 15 A exactly, with 3.7 kW 15.4 A: 15 A, 3.6 kW.
        var car = Nights.Plain();
        car = car with { Vehicle = car.Vehicle with { OnBoardCharger = Power.FromKilowatts(3.7) } };
        var problem = HouseholdProblemBuilder.Build(Houses.One(car, new RunningRules { Adjustable = true, WholeAmperes = true }));
        Assert.Equal(15, problem.Cars[0].MostA[0]);
        Assert.Equal(3.6, problem.Cars[0].Problem.WallKw[0], 9);
    }

    [Fact]
    public void SharedCircuit_LimitsEachCarToo()
    {
        var problem = HouseholdProblemBuilder.Build(Houses.Two(sharedA: 20));
        Assert.All(problem.Cars, c => Assert.Equal(20, c.MostA[0]));
        Assert.Equal(20, Assert.Single(problem.Circuits).MostA);
        Assert.Empty(HouseholdProblemBuilder.Build(Houses.One() with { SharedCircuitA = 20 }).Circuits);
    }

    [Fact]
    public void CarsBelowTheMinimumOnOneCircuit_HaveLowerBoundsTheyCanKeepTogether()
    {
        // Both at 2 % with 10 % as the minimum: alone each has 4.8 kWh more in 42 min. On 32 A together only one can charge at full current.
        var low = Nights.Plain() with { PluggedInAt = StateOfCharge.FromFraction(0.02) };
        var alone = HouseholdProblemBuilder.Build(Houses.Two(low, low));
        var shared = HouseholdProblemBuilder.Build(Houses.Two(low, low, sharedA: 32));
        var at = Array.IndexOf(alone.Boundaries, Nights.At(18, 45));
        Assert.Equal(6, alone.Cars[1].Problem.LowerKwh[at], 9);
        Assert.Equal(6, shared.Cars[0].Problem.LowerKwh[at], 9);
        Assert.Equal(1.2, shared.Cars[1].Problem.LowerKwh[at], 9);
        Assert.Equal(6, shared.Cars[1].Problem.LowerKwh[at + 3], 9);
    }

    [Fact]
    public void MarginThatTwoCarsCantBothKeep_IsGivenUp()
    {
        // 18 kWh each at 6.9224 kW: 2.6 h a car. By 21:00Z one can be ready, not both; by 06:00Z both are.
        var question = Houses.Two(Margin(9), Margin(9), sharedA: 32);
        var problem = HouseholdProblemBuilder.Build(question);
        Assert.True(problem.Cars[0].Problem.Departures[0].MarginKept);
        Assert.False(problem.Cars[1].Problem.Departures[0].MarginKept);
        Assert.All(HouseholdProblemBuilder.Build(question with { SharedCircuitA = null }).Cars, c => Assert.True(c.Problem.Departures[0].MarginKept));
        Assert.All(HouseholdProblemBuilder.Build(Houses.Two(Margin(5), Margin(5), sharedA: 32)).Cars, c => Assert.True(c.Problem.Departures[0].MarginKept));

        static ChargingCase Margin(int hours)
        {
            var car = Nights.Plain();
            return car with { Calendar = new DrivingCalendar([car.Calendar.Trips[0]]), FinishMargin = Duration.FromHours(hours) };
        }
    }

    [Fact]
    public void Warming_IsLoadAndTakesOfTheSharedCircuit()
    {
        var cold = Nights.Plain(-10) with { WarmUp = new(Duration.FromMinutes(30), 1.2, 1, 0) };
        var problem = HouseholdProblemBuilder.Build(Houses.Two(cold, cold, sharedA: 40));
        var last = problem.Cars[0].Problem.Departures[0].Boundary - 1;

        // 2.4 kW and 10 A each.
        Assert.Equal(4.8, problem.HouseKw[last], 9);
        Assert.Equal(20, problem.Circuits[0].LeftA(last), 9);
        Assert.Equal(40, problem.Circuits[0].LeftA(0), 9);

        // 2 cars * 2 mornings * 1.2 kWh at 0.30.
        Assert.Equal(1.44, problem.WarmUpCost, 9);
    }

    [Fact]
    public void RandomHouseholds_HaveOneGridAndFiniteNumbers()
    {
        for (var seed = 0; seed < 60; seed++)
        {
            var first = RandomCases.Case(seed);
            var second = RandomCases.Case(seed + 1000);
            var random = new Random(seed);
            second = second with { Start = first.Start, End = first.End, GridStep = first.GridStep, Prices = first.Prices, Calendar = new DrivingCalendar([]) };
            var question = Houses.Two(LimitsByHoursTests.WithLimits(first, random), LimitsByHoursTests.WithLimits(second, random), random.Next(2) == 0 ? 10 + (40 * random.NextDouble()) : null) with
            {
                House = new PowerForecast(first.Start, Duration.FromMinutes(30), [.. Enumerable.Range(0, 300).Select(_ => 3 * random.NextDouble())]),
                ImportLimitKw = random.Next(2) == 0 ? 8 : null,
            };
            var problem = HouseholdProblemBuilder.Build(question);
            Assert.All(problem.Cars, c => Assert.Equal(problem.Boundaries, c.Problem.Boundaries));
            Assert.All(problem.Cars, c => Assert.All(c.Problem.LowerKwh.Zip(c.Problem.UpperKwh), b => Assert.True(b.First <= b.Second + 1e-9)));
            Assert.All(problem.HouseKw.Concat(problem.ImportPrice), v => Assert.True(double.IsFinite(v)));
        }
    }

    [Fact]
    public void CarsThatDontFitTogether_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => HouseholdProblemBuilder.Build(new HouseholdCase { Cars = [] }));
        Assert.Throws<ArgumentException>(() => HouseholdProblemBuilder.Build(Houses.Two(second: Nights.Plain() with { GridStep = Duration.FromMinutes(5) })));
        var twice = Houses.Two();
        Assert.Throws<ArgumentException>(() => HouseholdProblemBuilder.Build(twice with { Cars = [twice.Cars[0], twice.Cars[0]] }));
    }

    private static double At(HouseholdProblem problem, double[] values, Instant at) => values[Array.IndexOf(problem.Boundaries, at)];
}
