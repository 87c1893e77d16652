using NodaTime;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Moves the starts of a stay's windows so that the full physics reach what was planned without the taper.</summary>
/// <remarks>The solver knows no taper, and windows begin and end on a whole second: stay by stay, in order, the last window begins as much
/// earlier (or later) as the replay is short (or over), and where it can't, the one before it. First by the time that a finish margin begins, then
/// by the end of the stay. No window is moved into hours in which nothing can be stored or other cars leave no current. What can't be made up is reported as it is.</remarks>
internal sealed class TaperAllowance
{
    // The pace changes along the taper, so that the second look corrects the first; three are enough for a second's energy.
    private const int MostLooks = 4;

    private readonly HouseholdCar car;
    private readonly ChargingProblem problem;
    private readonly CarSchedule planned;
    private readonly double[] currentA;
    private readonly List<ChargingWindow> windows;
    private CarRun run;

    private TaperAllowance(HouseholdCar car, CarSchedule planned, double[] currentA, IReadOnlyList<ChargingWindow> windows)
    {
        (this.car, problem, this.planned, this.currentA) = (car, car.Problem, planned, currentA);
        this.windows = [.. windows];
        run = CarRun.Of(car, planned, currentA, this.windows);
    }

    /// <summary>The windows after the correction, with their replay.</summary>
    /// <param name="car">The car.</param>
    /// <param name="planned">What was planned.</param>
    /// <param name="currentA">Current of each interval in which it may charge: see <see cref="SpareCurrent"/>. [A, per phase]</param>
    /// <param name="windows">The windows planned.</param>
    public static CarRun Apply(HouseholdCar car, CarSchedule planned, double[] currentA, IReadOnlyList<ChargingWindow> windows)
    {
        var allowance = new TaperAllowance(car, planned, currentA, windows);
        allowance.SettleAll();
        var moved = allowance.windows;
        var earlier = windows.Zip(moved, (before, now) => before.Start - now.Start).Append(Duration.Zero).Max();
        moved.RemoveAll(w => w.End <= w.Start);
        return CarRun.Of(car, planned, currentA, moved, earlier);
    }

    private void SettleAll()
    {
        var mayShorten = car.Rules.LeastOn <= Duration.Zero;
        var stayStart = 0;
        for (var k = 0; k <= problem.Departures.Length; k++)
        {
            var stayEnd = problem.Count;
            var wanted = planned.StoredKwh[stayEnd];
            var isDue = false;
            if (k < problem.Departures.Length)
            {
                var departure = problem.Departures[k];
                stayEnd = departure.Boundary;
                wanted = planned.StoredKwh[stayEnd];

                // What whole seconds left out of the plan is made up as well.
                wanted = planned.TargetShortfallKwh[k] <= NightPlanner.NegligibleKwh ? Math.Max(wanted, departure.RequiredKwh) : wanted;
                isDue = departure.DueBoundary < stayEnd;
                if (departure.MarginKept && isDue)
                {
                    Settle(stayStart, departure.DueBoundary, departure.RequiredKwh, mayShorten: false);
                }
            }

            Settle(stayStart, stayEnd, wanted, mayShorten && !isDue);
            stayStart = k < problem.Departures.Length ? problem.Departures[k].ReturnBoundary : stayEnd;
        }
    }

    /// <summary>Brings the energy at a boundary to what was planned, from the last window that begins before it backward.</summary>
    private void Settle(int stayStart, int until, double plannedKwh, bool mayShorten)
    {
        var (from, to) = (problem.Boundaries[stayStart], problem.Boundaries[until]);
        for (var w = windows.Count - 1; w >= 0; w--)
        {
            if (windows[w].Start >= from && windows[w].Start < to)
            {
                Move(w, stayStart, until, plannedKwh, mayShorten);
                mayShorten = false;
            }
        }
    }

    private void Move(int w, int stayStart, int until, double plannedKwh, bool mayShorten)
    {
        var end = Instant.Min(windows[w].End, problem.Boundaries[until]);
        var secondsPerKwh = 3600 / Math.Max(RateKw(Math.Max(IndexBefore(end), stayStart)), 0.01);
        var notBefore = NotBefore(w, stayStart);
        for (var look = 0; look < MostLooks; look++)
        {
            var missing = plannedKwh - run.Replay.StoredKwh[until];
            var seconds = Math.Round(missing * secondsPerKwh);
            if (seconds == 0 || (seconds < 0 && !mayShorten))
            {
                break;
            }

            var before = windows[w].Start;
            var start = Instant.Min(windows[w].End, Instant.Max(notBefore, before - Duration.FromSeconds(seconds)));
            windows[w] = windows[w] with { Start = start };
            var next = CarRun.Of(car, planned, currentA, windows);
            var gained = next.Replay.StoredKwh[until] - run.Replay.StoredKwh[until];
            run = next;
            if (start == before || Math.Abs(gained) < 1e-9)
            {
                break;
            }

            secondsPerKwh = (before - start).TotalSeconds / gained;
        }
    }

    /// <summary>How early a window may begin: not before its stay, the window before it, or hours in which nothing can be stored.</summary>
    private Instant NotBefore(int w, int stayStart)
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

    private double RateKw(int i) => currentA[i] == car.MostA[i]
        ? problem.NetKw[i]
        : ChargingModel.NetRateKw(car.VoltsAcrossPhases * currentA[i] / 1000, problem.TemperatureC[i], problem.Constants);

    /// <summary>Index of the interval that lies before an instant, whole or in part.</summary>
    private int IndexBefore(Instant instant)
    {
        var found = Array.BinarySearch(problem.Boundaries, instant);
        return (found >= 0 ? found : ~found) - 1;
    }
}
