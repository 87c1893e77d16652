using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Tests.Options;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>Small households of our invention, and schedules made without the household's solver.</summary>
internal static class Houses
{
    public static readonly Interval January = new(Instant.FromUtc(2026, 1, 1, 0, 0), Instant.FromUtc(2026, 2, 1, 0, 0));

    public static HouseholdCase One(ChargingCase? car = null, RunningRules? rules = null, IEnumerable<PriceTerm>? terms = null) => new()
    {
        Cars = [new("first", (car ?? Nights.Plain()) with { Prices = Nights.Prices(terms: terms) }, rules ?? RunningRules.FullCurrent)],
    };

    public static HouseholdCase Two(ChargingCase? first = null, ChargingCase? second = null, double? sharedA = null, RunningRules? rules = null) => new()
    {
        Cars =
        [
            new("first", first ?? Nights.Plain(), rules ?? RunningRules.FullCurrent),
            new("second", second ?? Nights.Plain(), rules ?? RunningRules.FullCurrent),
        ],
        SharedCircuitA = sharedA,
    };

    /// <summary>Each car's own least cost, as if it were alone.</summary>
    public static HouseholdSchedule EachAlone(HouseholdProblem problem) => Schedule(problem, [.. problem.Cars.Select(Alone)]);

    public static HouseholdSchedule Schedule(HouseholdProblem problem, CarSchedule[] cars)
    {
        var charging = new double[problem.Count];
        var value = 0.0;
        var stops = 0.0;
        for (var c = 0; c < cars.Length; c++)
        {
            var car = problem.Cars[c];
            for (var i = 0; i < charging.Length; i++)
            {
                charging[i] += car.Problem.Place[i] == Place.Home ? cars[c].Shares[i] * cars[c].CurrentA[i] * car.VoltsAcrossPhases / 1000 : 0;
                stops += car.Problem.Place[i] == Place.Stop ? cars[c].Shares[i] * car.Problem.WallKw[i] * car.Problem.Price[i] * problem.Hours[i] : 0;
            }

            value += car.Problem.EndValuePerKwh * Math.Min(car.Problem.OrdinaryKwh, cars[c].StoredKwh[^1]);
        }

        var cost = HouseholdBill.Of(problem, charging);
        return new HouseholdSchedule(cars, cost.Total + stops, cost.Bill + stops, cost.Total + stops - value, 0, SolveRoute.Shares, false);
    }

    /// <summary>One car by shares of time: its windows on whole seconds, and the path that follows from them.</summary>
    public static CarSchedule Alone(HouseholdCar car)
    {
        var problem = car.Problem;
        var least = Scheduler.Solve(problem, Solvers.SolverChoice.Direct, equalCost: EqualCost.ChargeLate);
        var windows = WindowPlanner.Plan(problem, least);
        var shares = WindowPlanner.Shares(problem, windows);
        for (var i = 0; i < shares.Length; i++)
        {
            shares[i] = problem.Place[i] == Place.Stop ? least.Shares[i] : shares[i];
        }

        return OfShares(car, shares, problem.MostA, WindowSteps.Of(problem.Boundaries, problem.MostA, windows));
    }

    public static CarSchedule OfShares(HouseholdCar car, double[] shares, double[] currentA, IReadOnlyList<CurrentStep> steps)
    {
        // Without the taper: the solver's own path.
        var problem = car.Problem;
        var kw = currentA.Select((a, i) => problem.Place[i] == Place.Home ? a * car.VoltsAcrossPhases / 1000 : problem.WallKw[i]).ToArray();
        var straight = problem with { UsableKwh = 1e6 };
        var replay = Replay.Run(straight, shares, wallKw: kw);
        return new CarSchedule(currentA, shares, steps, replay.StoredKwh, replay.TripShortfallKwh, replay.TargetShortfallKwh);
    }
}
