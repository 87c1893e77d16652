using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Every car charges when it is plugged in, one after another in their order: each has what its own ratings, the shared circuit and the import limit
/// leave it beside those before it.</summary>
internal static class ArrivalRuns
{
    public static CarRun[] Of(HouseholdProblem problem)
    {
        var runs = new CarRun[problem.Cars.Count];
        var taken = new List<double[]>();
        for (var c = 0; c < runs.Length; c++)
        {
            var car = problem.Cars[c];
            var current = Currents(problem, c, taken);
            var run = BehaviourSimulator.Run(LimitedCar.At(car, current), new OnArrival());
            var windows = Windows(car.Problem, run.Shares);
            var currents = new double[current.Length];
            for (var i = 0; i < currents.Length; i++)
            {
                currents[i] = car.Problem.Place[i] == Place.Home && run.Shares[i] > 0 ? current[i] : 0;
            }

            var schedule = new CarSchedule(
                currents,
                run.Shares,
                WindowSteps.Of(car.Problem.Boundaries, current, windows),
                run.Replay.StoredKwh,
                run.Replay.TripShortfallKwh,
                run.Replay.TargetShortfallKwh);
            runs[c] = new CarRun(windows, schedule, run.Replay, Duration.Zero);
            taken.Add(currents);
        }

        return runs;
    }

    private static double[] Currents(HouseholdProblem problem, int c, List<double[]> taken)
    {
        var car = problem.Cars[c];
        if (problem.Circuits.Count == 0 && problem.ImportLimitKw is null)
        {
            return car.MostA;
        }

        var current = new double[problem.Count];
        for (var i = 0; i < current.Length; i++)
        {
            current[i] = car.MostA[i] > 0 ? SpareCurrent.Settable(car, car.MostA[i], SpareCurrent.LeftA(problem, c, taken, i)) : 0;
        }

        return current;
    }

    /// <summary>Windows of shares that fill each interval from its start; they end on a whole second.</summary>
    private static List<ChargingWindow> Windows(ChargingProblem problem, double[] shares)
    {
        var windows = new List<ChargingWindow>();
        for (var i = 0; i < shares.Length; i++)
        {
            if (shares[i] <= 0 || problem.Place[i] != Place.Home)
            {
                continue;
            }

            var start = problem.Boundaries[i];
            var end = shares[i] >= 1
                ? problem.Boundaries[i + 1]
                : Instant.FromUnixTimeSeconds((start + Duration.FromHours(problem.Hours[i] * shares[i])).ToUnixTimeSeconds());
            if (end <= start)
            {
                continue;
            }

            if (windows.Count > 0 && windows[^1].End == start)
            {
                start = windows[^1].Start;
                windows.RemoveAt(windows.Count - 1);
            }

            windows.Add(new ChargingWindow(start, end));
        }

        return windows;
    }
}
