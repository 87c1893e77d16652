using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>One car at full current with nothing coupled: shares of time are exact, and windows are searched for on them.</summary>
internal static class SimpleNight
{
    // How far the two roads to the optimum may differ, as tests hold them.
    private const double SameObjective = 1e-6;

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

    public static HouseholdSchedule Solve(HouseholdModel model, ShortfallOrder order, bool proveBound)
    {
        var household = model.Problem;
        var car = model.Cars[0];

        // The LP gives the bound; the sweep, of all solutions that cost the same, the one that charges latest.
        var (problem, sweep) = Least(model, order);
        var bound = proveBound ? Scheduler.Solve(problem, order: order) : sweep;
        var least = sweep.Objective <= bound.Objective + (SameObjective * Math.Max(1, Math.Abs(bound.Objective))) ? sweep : bound;
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
            bound.Objective,
            SolveRoute.Shares,
            bound.LimitReached);
    }

    /// <summary>The optimum by the direct sweep, and the car's problem with what energy costs in all.</summary>
    public static (ChargingProblem Problem, LeastCost Least) Least(HouseholdModel model, ShortfallOrder order)
    {
        var problem = Priced(model.Cars[0].Car.Problem, model.Problem);
        return (problem, Scheduler.Solve(problem, SolverChoice.Direct, order, equalCost: EqualCost.ChargeLate));
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

        return problem with { Price = price };
    }
}
