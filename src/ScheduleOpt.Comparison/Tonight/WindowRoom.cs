using NodaTime;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>How far the edges of windows may move.</summary>
/// <param name="car">The car.</param>
/// <param name="currentA">Current of each interval in which it may charge. [A, per phase]</param>
/// <param name="windows">The windows as they are.</param>
internal sealed class WindowRoom(HouseholdCar car, double[] currentA, IReadOnlyList<ChargingWindow> windows)
{
    private readonly ChargingProblem problem = car.Problem;

    /// <summary>How early a window may begin: not before its stay, the window before it, or hours in which nothing can be stored.</summary>
    public Instant NotBefore(int w, int stayStart)
    {
        var i = IndexBefore(windows[w].Start);
        while (i >= stayStart && RateKw(i) > 0)
        {
            i--;
        }

        // A window that begins inside an interval may move to its start.
        var open = problem.Boundaries[Math.Max(i + 1, stayStart)];
        open = Instant.Min(open, windows[w].Start);
        return w > 0 ? Instant.Min(windows[w].Start, Instant.Max(open, windows[w - 1].End + car.Rules.LeastOff)) : open;
    }

    /// <summary>How late a window may end: not after a boundary of its stay, the window after it, or the hours in which something can be stored.</summary>
    public Instant NotAfter(int w, int until)
    {
        var i = IndexBefore(windows[w].End + Duration.FromTicks(1));
        while (i < until && RateKw(i) > 0)
        {
            i++;
        }

        var close = problem.Boundaries[Math.Min(i, until)];
        return w + 1 < windows.Count ? Instant.Min(close, windows[w + 1].Start - car.Rules.LeastOff) : close;
    }

    /// <summary>Rate of an interval at the current that the car may have there. [kW, stored]</summary>
    public double RateKw(int i) => currentA[i] == car.MostA[i]
        ? problem.NetKw[i]
        : ChargingModel.NetRateKw(car.VoltsAcrossPhases * currentA[i] / 1000, problem.TemperatureC[i], problem.Constants);

    /// <summary>Index of the interval that lies before an instant, whole or in part.</summary>
    public int IndexBefore(Instant instant)
    {
        var found = Array.BinarySearch(problem.Boundaries, instant);
        return (found >= 0 ? found : ~found) - 1;
    }
}
