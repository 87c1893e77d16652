using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Answers tonight's question: solve, make runnable, replay, check.</summary>
public static class NightPlanner
{
    /// <summary>A shortfall up to this is not called one. [kWh]</summary>
    public const double NegligibleKwh = 0.01;

    // How far the two roads to the optimum may differ, as tests hold them.
    private const double SameObjective = 1e-6;

    /// <summary>Plans the coming nights. Every question that <see cref="ChargingProblemBuilder"/> accepts has an answer.</summary>
    public static NightPlan Plan(NightQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        var problem = ChargingProblemBuilder.Build(question.Case);
        // The LP gives the bound; the sweep, of all solutions that cost the same, the one that charges latest.
        var bound = Scheduler.Solve(problem, question.Solver, question.Order);
        var sweep = Scheduler.Solve(problem, SolverChoice.Direct, question.Order, equalCost: EqualCost.ChargeLate);
        var least = sweep.Objective <= bound.Objective + (SameObjective * Math.Max(1, Math.Abs(bound.Objective))) ? sweep : bound;
        var (runnable, replay, earlier) = TaperAllowance.Apply(problem, least, WindowPlanner.Plan(problem, least));

        var findings = Check(question.Case, problem, replay, earlier);
        var onArrival = BehaviourSimulator.Run(problem, new OnArrival());
        if (findings.Count > 0)
        {
            // A hub must always get a safe answer: charging on arrival within the continuous rating is one.
            (runnable, replay) = (WindowsOf(problem, onArrival.Shares), onArrival.Replay);
        }

        return Of(question.Case, problem, least, bound, runnable, replay, findings);
    }

    /// <summary>The plan of some windows, after their replay.</summary>
    /// <param name="question">The question.</param>
    /// <param name="problem">Its problem.</param>
    /// <param name="least">The optimum that the windows were made from.</param>
    /// <param name="bound">The optimum that bounds the cost.</param>
    /// <param name="windows">The windows.</param>
    /// <param name="replay">What happens with the full physics.</param>
    /// <param name="findings">What the schedule check found.</param>
    internal static NightPlan Of(
        ChargingCase question,
        ChargingProblem problem,
        LeastCost least,
        LeastCost bound,
        IReadOnlyList<ChargingWindow> windows,
        ReplayResult replay,
        IReadOnlyList<string> findings)
    {
        var onArrival = BehaviourSimulator.Run(problem, new OnArrival());
        var departures = Departures(question, problem, replay);
        var cold = ColdHours.Of(problem, replay.OnHours);
        return new NightPlan
        {
            Outcome = departures.Any(d => d.TripShortfallKwh > 0 || d.TargetShortfallKwh > 0)
                ? NightOutcome.Short
                : NightOutcome.Ready,
            Windows = windows,
            Steps = WindowSteps.Of(problem.Boundaries, problem.MostA, windows),
            FullCurrentA = question.Supply?.ChargingCurrentA(question.Vehicle) ?? 0,
            FullPowerKw = question.Supply?.ChargingPower(question.Vehicle).Kilowatts ?? 0,
            Problem = problem,
            Least = least,
            Bound = bound,
            Shares = SharesOf(problem, replay),
            Replay = replay,
            Cost = replay.CostAt(problem),
            CostOnArrival = onArrival.Replay.CostAt(problem),
            ExtraEndKwhOnArrival = onArrival.Replay.StoredKwh[^1] - replay.StoredKwh[^1],
            Departures = departures,
            ColdHours = cold,
            LimitReached = bound.LimitReached,
            Warnings = NightWarnings.Of(question, problem, departures, cold, findings),
            CheckFindings = findings,
        };
    }

    internal static IReadOnlyList<string> Check(ChargingCase question, ChargingProblem problem, ReplayResult replay, Duration earlier) =>
        ScheduleCheck.Findings(problem, new ScheduleClaim
        {
            VoltsAcrossPhases = question.Supply?.VoltsAcrossPhases ?? 0,
            CurrentA = problem.MostA,
            ContinuousRatingA = question.Supply?.ContinuousRatingA ?? 0,
            MinimumCurrentA = question.Vehicle.MinimumCurrentA,
            NoCharging = question.NoCharging,
            CurrentLimits = question.CurrentLimits,
            OnHours = replay.OnHours,
            StoredKwh = replay.StoredKwh,
            TripShortfallKwh = replay.TripShortfallKwh,
            TargetShortfallKwh = replay.TargetShortfallKwh,
            Cost = replay.CostAt(problem),
            WithTaper = true,
            BegunEarlier = earlier,
        });

    private static double[] SharesOf(ChargingProblem problem, ReplayResult replay)
    {
        var shares = new double[problem.Count];
        for (var i = 0; i < shares.Length; i++)
        {
            shares[i] = replay.OnHours[i] / problem.Hours[i];
        }

        return shares;
    }

    /// <summary>Windows of shares that fill each interval from its start, as an unaided behaviour does.</summary>
    private static List<ChargingWindow> WindowsOf(ChargingProblem problem, double[] shares)
    {
        var windows = new List<ChargingWindow>();
        for (var i = 0; i < shares.Length; i++)
        {
            if (shares[i] <= 0 || problem.Place[i] != Place.Home)
            {
                continue;
            }

            var start = problem.Boundaries[i];
            var end = start + Duration.FromHours(problem.Hours[i] * shares[i]);
            if (windows.Count > 0 && windows[^1].End == start)
            {
                start = windows[^1].Start;
                windows.RemoveAt(windows.Count - 1);
            }

            windows.Add(new ChargingWindow(start, end));
        }

        return windows;
    }

    private static List<DepartureForecast> Departures(ChargingCase question, ChargingProblem problem, ReplayResult replay)
    {
        var forecasts = new List<DepartureForecast>(problem.Departures.Length);
        for (var k = 0; k < problem.Departures.Length; k++)
        {
            var departure = problem.Departures[k];
            var at = problem.Boundaries[departure.Boundary];
            var consumption = question.Vehicle.Consumption;
            var perKm = consumption.ReferenceKwhPerKm * consumption.Factor(question.Temperatures.At(at));
            forecasts.Add(new DepartureForecast(
                at,
                departure.RequiredKwh,
                replay.StoredKwh[departure.Boundary],
                Called(replay.TripShortfallKwh[k]),
                Called(replay.TargetShortfallKwh[k]),
                Called(replay.TripShortfallKwh[k]) / perKm,
                ReadyTime.Of(question, problem, replay, k))
            {
                MarginKept = departure.MarginKept && replay.StoredKwh[departure.DueBoundary] >= departure.RequiredKwh - NegligibleKwh,
            });
        }

        return forecasts;
    }

    /// <summary>Windows begin and end on a whole second: what that leaves is no shortfall.</summary>
    private static double Called(double shortfallKwh) => shortfallKwh > NegligibleKwh ? shortfallKwh : 0;
}
