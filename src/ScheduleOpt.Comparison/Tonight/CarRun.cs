using NodaTime;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>What one car does: its windows, and what happens to it with the full physics.</summary>
/// <param name="Windows">Charging windows at home, in order.</param>
/// <param name="Schedule">The same by intervals and as runs of one current; the stored energy is that of the replay.</param>
/// <param name="Replay">The replay.</param>
/// <param name="Earlier">The most by which a window begins earlier than was planned.</param>
internal sealed record CarRun(IReadOnlyList<ChargingWindow> Windows, CarSchedule Schedule, ReplayResult Replay, Duration Earlier)
{
    /// <summary>Runs windows with the full physics.</summary>
    /// <param name="car">The car.</param>
    /// <param name="planned">Shares at stops, and what trips may miss.</param>
    /// <param name="currentA">Current in each interval in which it may charge. [A, per phase]</param>
    /// <param name="windows">The windows, on whole seconds.</param>
    /// <param name="earlier">The most by which one begins earlier than was planned.</param>
    public static CarRun Of(HouseholdCar car, CarSchedule planned, double[] currentA, IReadOnlyList<ChargingWindow> windows, Duration earlier = default)
    {
        var problem = car.Problem;
        var (shares, currents) = (WindowPlanner.Shares(problem, windows), new double[problem.Count]);
        for (var i = 0; i < shares.Length; i++)
        {
            shares[i] = problem.Place[i] == Place.Stop ? planned.Shares[i] : shares[i];
            currents[i] = problem.Place[i] == Place.Home && shares[i] > 0 ? currentA[i] : 0;
        }

        var replay = HouseholdReplay.Run(car, currents, shares, planned.TripShortfallKwh);
        var steps = WindowSteps.Of(problem.Boundaries, currentA, windows);
        return new(
            windows, new(currents, shares, steps, replay.StoredKwh, replay.TripShortfallKwh, replay.TargetShortfallKwh), replay, earlier);
    }

    /// <summary>Steps that follow one another without a pause make one window.</summary>
    public static List<ChargingWindow> WindowsOf(IReadOnlyList<CurrentStep> steps)
    {
        var windows = new List<ChargingWindow>();
        foreach (var step in steps)
        {
            if (windows.Count > 0 && windows[^1].End == step.Start)
            {
                windows[^1] = windows[^1] with { End = step.End };
            }
            else
            {
                windows.Add(new(step.Start, step.End));
            }
        }

        return windows;
    }
}
