using NodaTime;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Moves the edges of a stay's windows so that the full physics reach what was planned without the taper.</summary>
/// <remarks>The solver knows no taper, and windows begin and end on a whole second: stay by stay, in order, the last window begins as much
/// earlier (or later) as the replay is short (or over), and where it can't, the one before it; what a departure then still lacks, they end later. First by the time that
/// a finish margin begins, then by the end of the stay. No window is moved into hours in which nothing can be stored or other cars leave no current, nor so far that
/// more is stored than may be. What can't be made up is reported as it is.</remarks>
internal sealed class TaperAllowance
{
    // The pace changes along the taper, so that each look corrects the one before; close to full it changes most.
    private const int MostLooks = 8;

    private readonly HouseholdCar car;
    private readonly ChargingProblem problem;
    private readonly CarSchedule planned;
    private readonly double[] currentA;
    private readonly IReadOnlyList<ChargingWindow> before;
    private readonly List<ChargingWindow> windows;
    private CarRun run;

    private TaperAllowance(HouseholdCar car, CarSchedule planned, double[] currentA, IReadOnlyList<ChargingWindow> windows)
    {
        (this.car, problem, this.planned, this.currentA) = (car, car.Problem, planned, currentA);
        (before, this.windows) = (windows, [.. windows]);
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
        var earlier = allowance.Earlier();
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
                    Settle(stayStart, departure.DueBoundary, departure.RequiredKwh, mayShorten: false, mayEndLater: true);
                }
            }

            Settle(stayStart, stayEnd, wanted, mayShorten && !isDue, mayEndLater: k < problem.Departures.Length);
            stayStart = k < problem.Departures.Length ? problem.Departures[k].ReturnBoundary : stayEnd;
        }
    }

    /// <summary>Brings the energy at a boundary to what was planned, from the last window that begins before it backward.</summary>
    private void Settle(int stayStart, int until, double plannedKwh, bool mayShorten, bool mayEndLater)
    {
        var (from, to) = (problem.Boundaries[stayStart], problem.Boundaries[until]);
        for (var w = windows.Count - 1; w >= 0; w--)
        {
            if (windows[w].Start >= from && windows[w].Start < to)
            {
                var notBefore = NotBefore(w, stayStart);
                var last = IndexBefore(Instant.Min(windows[w].End, to));
                Move(w, until, plannedKwh, Math.Max(last, stayStart), mayShorten, (window, seconds) => window with
                {
                    Start = Instant.Min(window.End, Instant.Max(notBefore, window.Start - Duration.FromSeconds(seconds))),
                });
                mayShorten = false;
            }
        }

        for (var w = windows.Count - 1; w >= 0 && mayEndLater && plannedKwh - run.Replay.StoredKwh[until] > NightPlanner.NegligibleKwh; w--)
        {
            if (windows[w].Start >= from && windows[w].Start < to && NotAfter(w, until) is var notAfter && notAfter > windows[w].End)
            {
                Move(w, until, plannedKwh, IndexBefore(notAfter), mayShorten: false, (window, seconds) => window with
                {
                    End = Instant.Min(notAfter, window.End + Duration.FromSeconds(seconds)),
                });
            }
        }
    }

    /// <summary>Makes a window longer by the seconds that are missing, look by look.</summary>
    private void Move(int w, int until, double plannedKwh, int paceOf, bool mayShorten, Func<ChargingWindow, double, ChargingWindow> longer)
    {
        var secondsPerKwh = 3600 / Math.Max(RateKw(paceOf), 0.01);
        for (var look = 0; look < MostLooks; look++)
        {
            var (was, stored) = (windows[w], run.Replay.StoredKwh[until]);
            var seconds = Math.Round((plannedKwh - stored) * secondsPerKwh);
            var moved = seconds >= 0 || mayShorten ? longer(was, seconds) : was;
            if (moved == was)
            {
                break;
            }

            if (!Try(w, moved))
            {
                MoveWithinLimits(w, seconds, longer);
                break;
            }

            var gained = run.Replay.StoredKwh[until] - stored;
            if (Math.Abs(gained) < 1e-9)
            {
                break;
            }

            secondsPerKwh = (moved.End - moved.Start - (was.End - was.Start)).TotalSeconds / gained;
        }
    }

    /// <summary>Makes a window longer by as many of some seconds, too many, as may be.</summary>
    private void MoveWithinLimits(int w, double seconds, Func<ChargingWindow, double, ChargingWindow> longer)
    {
        var was = windows[w];
        var (fits, tooMany) = (0.0, seconds);
        while (tooMany - fits > 1)
        {
            var between = Math.Floor((fits + tooMany) / 2);
            (fits, tooMany) = Try(w, longer(was, between)) ? (between, tooMany) : (fits, between);
        }
    }

    /// <summary>Takes a window in another's place if no more is then stored than may be.</summary>
    private bool Try(int w, ChargingWindow window)
    {
        var was = windows[w];
        windows[w] = window;
        var next = CarRun.Of(car, planned, currentA, windows);
        if (!StoredLimit.Holds(problem, run.Replay.StoredKwh, next.Replay.StoredKwh, Earlier()))
        {
            windows[w] = was;
            return false;
        }

        run = next;
        return true;
    }

    /// <summary>The most by which a window begins earlier than planned.</summary>
    private Duration Earlier() => before.Zip(windows, (planned, now) => planned.Start - now.Start).Append(Duration.Zero).Max();

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

    /// <summary>How late a window may end: not after a boundary of its stay, the window after it, or the hours in which something can be stored.</summary>
    private Instant NotAfter(int w, int until)
    {
        var i = IndexBefore(windows[w].End + Duration.FromTicks(1));
        while (i < until && RateKw(i) > 0)
        {
            i++;
        }

        var close = problem.Boundaries[Math.Min(i, until)];
        return w + 1 < windows.Count ? Instant.Min(close, windows[w + 1].Start - car.Rules.LeastOff) : close;
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
