using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>One car at full current with nothing coupled: shares of time are exact, and windows are searched for on them.</summary>
internal static class SimpleNight
{
    public static bool Is(HouseholdModel model)
    {
        var problem = model.Problem;
        var car = model.Cars[0];
        return model.Cars.Length == 1
            && car.Car.Rules is { Adjustable: false, MostWindows: null } rules
            && rules.LeastOn <= NodaTime.Duration.Zero && rules.LeastOff <= NodaTime.Duration.Zero
            && problem.SolarKw.All(kw => kw == 0)
            && model.Terms.Length == 0
            && model.LeastBills.All(b => b.Least <= 0)
            && problem.ImportPrice.All(p => p >= 0) && car.Car.Problem.Price.All(p => p >= 0)
            && Enumerable.Range(0, problem.Count).All(i => car.Car.Problem.Place[i] != Place.Home || SameAsAlone(car, i));
    }

    public static HouseholdSchedule Solve(HouseholdModel model, ShortfallOrder order)
    {
        var household = model.Problem;
        var car = model.Cars[0];
        var problem = Priced(car.Car.Problem, household);
        var least = Scheduler.Solve(problem, order: order);
        var windows = WindowPlanner.Plan(problem, least);
        var shares = WindowPlanner.Shares(problem, windows);
        var kw = new double[problem.Count];
        for (var i = 0; i < kw.Length; i++)
        {
            shares[i] = problem.Place[i] == Place.Stop ? least.Shares[i] : shares[i];
            kw[i] = problem.WallKw[i] * shares[i];
        }

        var powers = new HouseholdPowers(1, problem.Count);
        kw.CopyTo(powers.WallKw[0], 0);
        shares.CopyTo(powers.Share[0], 0);
        var run = RunnableSchedule.Of(model, new(household), powers, [least.TripShortfallKwh]);
        CurrentStep[] steps = [.. windows.SelectMany(w => CurrentsIn(w, car, problem))];
        double[] currents = [.. Enumerable.Range(0, kw.Length).Select(i => problem.Place[i] == Place.Home && shares[i] > 0 ? car.Car.MostA[i] : 0)];
        return new(
            [new(currents, shares, steps, run.StoredKwh[0], run.Shortfalls.TripKwh[0], run.Shortfalls.TargetKwh[0])],
            run.BillCost + run.CarbonCost,
            run.BillCost,
            run.Objective,
            least.Objective,
            SolveRoute.Shares,
            least.LimitReached);
    }

    private static bool SameAsAlone(CarPower car, int i) =>
        car.MostKw[i] > 0
            ? Math.Abs(car.MostKw[i] - car.Car.Problem.WallKw[i]) < 1e-9
            : car.Car.Problem.NetKw[i] <= 0;

    /// <summary>A window cut where the most current changes.</summary>
    private static IEnumerable<CurrentStep> CurrentsIn(ChargingWindow window, CarPower car, ChargingProblem problem)
    {
        var at = window.Start;
        while (at < window.End)
        {
            var i = Array.BinarySearch(problem.Boundaries, at) is var found && found >= 0 ? found : ~found - 1;
            var j = i;
            while (j + 1 < problem.Count && problem.Boundaries[j + 1] < window.End && car.Car.MostA[j + 1] == car.Car.MostA[i])
            {
                j++;
            }

            var end = NodaTime.Instant.Min(problem.Boundaries[j + 1], window.End);
            yield return new(at, end, car.Car.MostA[i]);
            at = end;
        }
    }

    private static ChargingProblem Priced(ChargingProblem problem, HouseholdProblem household)
    {
        var price = new double[problem.Count];
        for (var i = 0; i < price.Length; i++)
        {
            price[i] = problem.Place[i] == Place.Home ? household.ImportPrice[i] + household.CarbonPrice[i] : problem.Price[i];
        }

        return new()
        {
            Boundaries = problem.Boundaries,
            Hours = problem.Hours,
            Place = problem.Place,
            Price = price,
            WallKw = problem.WallKw,
            NetKw = problem.NetKw,
            TemperatureC = problem.TemperatureC,
            DriveKwh = problem.DriveKwh,
            LowerKwh = problem.LowerKwh,
            UpperKwh = problem.UpperKwh,
            Departures = problem.Departures,
            InitialKwh = problem.InitialKwh,
            UsableKwh = problem.UsableKwh,
            OrdinaryKwh = problem.OrdinaryKwh,
            MinimumKwh = problem.MinimumKwh,
            EndValuePerKwh = problem.EndValuePerKwh,
            FinalKwh = problem.FinalKwh,
            MostA = problem.MostA,
            WarmUpKw = problem.WarmUpKw,
            Ageing = problem.Ageing,
            Constants = problem.Constants,
        };
    }
}
