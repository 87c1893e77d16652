using NodaTime;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Moves the edges of a stay's windows so that the full physics reach what was planned without the taper.</summary>
/// <remarks>The solver knows no taper, and windows begin and end on a whole second: stay by stay, in order, the last window begins as much
/// earlier (or later) as the replay is short (or over), and where it can't, the one before it; what a departure then still lacks, they end later. First by the time that
/// a finish margin begins, then by the end of the stay. No window is moved into hours in which nothing can be stored or other cars leave no current, nor so far that
/// more is stored than may be. At a stop the car charges for longer. What can't be made up is reported as it is.</remarks>
internal sealed class TaperAllowance
{
    // The pace changes along the taper, so that each look corrects the one before; close to full it changes most.
    private const int MostLooks = 8;

    private readonly HouseholdCar car;
    private readonly ChargingProblem problem;
    private readonly CarSchedule planned;
    private readonly WindowRoom room;
    private readonly CorrectedRun run;

    private TaperAllowance(HouseholdCar car, CarSchedule planned, double[] currentA, IReadOnlyList<ChargingWindow> windows)
    {
        (this.car, problem, this.planned) = (car, car.Problem, planned);
        run = new CorrectedRun(car, planned, currentA, windows);
        room = new WindowRoom(car, currentA, run.Windows);
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
        return allowance.run.Result();
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
            SettleStops(stayEnd, stayStart);
        }
    }

    /// <summary>Brings the energy at a boundary to what was planned, from the last window that begins before it backward.</summary>
    private void Settle(int stayStart, int until, double plannedKwh, bool mayShorten, bool mayEndLater)
    {
        var (from, to) = (problem.Boundaries[stayStart], problem.Boundaries[until]);
        for (var w = run.Windows.Count - 1; w >= 0; w--)
        {
            if (run.Windows[w].Start >= from && run.Windows[w].Start < to)
            {
                var notBefore = room.NotBefore(w, stayStart);
                var last = room.IndexBefore(Instant.Min(run.Windows[w].End, to));
                Move(w, until, plannedKwh, Math.Max(last, stayStart), mayShorten, (window, seconds) => window with
                {
                    Start = Instant.Min(window.End, Instant.Max(notBefore, window.Start - Duration.FromSeconds(seconds))),
                });
                mayShorten = false;
            }
        }

        for (var w = run.Windows.Count - 1; w >= 0 && mayEndLater && plannedKwh - run.StoredKwh[until] > NightPlanner.NegligibleKwh; w--)
        {
            if (run.Windows[w].Start >= from && run.Windows[w].Start < to && room.NotAfter(w, until) is var notAfter && notAfter > run.Windows[w].End)
            {
                Move(w, until, plannedKwh, room.IndexBefore(notAfter), mayShorten: false, (window, seconds) => window with
                {
                    End = Instant.Min(notAfter, window.End + Duration.FromSeconds(seconds)),
                });
            }
        }
    }

    /// <summary>Makes a window longer by the seconds that are missing, look by look.</summary>
    private void Move(int w, int until, double plannedKwh, int paceOf, bool mayShorten, Func<ChargingWindow, double, ChargingWindow> longer)
    {
        var secondsPerKwh = 3600 / Math.Max(room.RateKw(paceOf), 0.01);
        var most = (problem.Boundaries[^1] - problem.Boundaries[0]).TotalSeconds;
        for (var look = 0; look < MostLooks; look++)
        {
            var (was, stored) = (run.Windows[w], run.StoredKwh[until]);
            var seconds = Math.Clamp(Math.Round((plannedKwh - stored) * secondsPerKwh), -most, most);
            var moved = seconds >= 0 || mayShorten ? longer(was, seconds) : was;
            if (moved == was)
            {
                break;
            }

            if (!run.Try(w, moved))
            {
                MoveWithinLimits(w, seconds, longer);
                break;
            }

            var gained = run.StoredKwh[until] - stored;
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
        var was = run.Windows[w];
        var (fits, tooMany) = (0.0, seconds);
        while (tooMany - fits > 1)
        {
            var between = Math.Floor((fits + tooMany) / 2);
            (fits, tooMany) = run.Try(w, longer(was, between)) ? (between, tooMany) : (fits, between);
        }
    }

    /// <summary>Brings the energy at the end of each stop of a trip to what was planned.</summary>
    private void SettleStops(int from, int to)
    {
        for (var first = from; first < to; first++)
        {
            var end = first;
            while (end < to && problem.Place[end] == Place.Stop)
            {
                end++;
            }

            for (var i = first; i < end && planned.StoredKwh[end] - run.StoredKwh[end] > NightPlanner.NegligibleKwh; i++)
            {
                run.ChargeLonger(i, end, planned.StoredKwh[end]);
            }

            first = Math.Max(first, end - 1);
        }
    }
}
