using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>A household's problem and schedule, in which a finish margin costs no departure's energy.</summary>
/// <remarks>
/// <see cref="FinishMargins"/> and <see cref="JointLimits"/> know which margins can be kept at full current in any share of time. Running rules and whole amperes can make
/// one impossible all the same, or let a trip shortfall pay for it. So where a schedule misses a margin, or leaves a departure short, it is solved without margins too. Where
/// that leaves less unmet, the margins beside what was short are given up, or all of them; otherwise the first schedule stays, and has as much of a margin as it can.
/// </remarks>
public static class HouseholdMargins
{
    // Above what a solver leaves of a shortfall that is none; a margin is not given up for it.
    private const double SameKwh = 1e-4;

    // Up to three solves share the work of one.
    private static readonly SolveLimit Asked = SolveLimit.Default with { MostAltogether = SolveLimit.Default.MostAltogether / 2 };
    private static readonly SolveLimit Freer = SolveLimit.Default with { MostAltogether = SolveLimit.Default.MostAltogether / 4 };

    /// <summary>Builds and solves; margins that the schedule misses are marked in the problem as not kept.</summary>
    /// <param name="question">The question.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="proveBound">Whether the gap must be proven small.</param>
    public static (HouseholdProblem Problem, HouseholdSchedule Schedule) Solve(HouseholdCase question, ShortfallOrder order, bool proveBound = true)
    {
        ArgumentNullException.ThrowIfNull(question);
        var problem = HouseholdProblemBuilder.Build(question);
        var asks = problem.Cars.Any(c => c.Problem.Departures.Any(IsAsked));
        var schedule = HouseholdScheduler.Solve(problem, order, asks ? Asked : SolveLimit.Default, proveBound);
        if (!asks || !(IsShort(schedule) || Misses(problem, schedule)) || SimpleNight.Is(HouseholdModel.Of(problem)))
        {
            return (problem, schedule);
        }

        var free = Without(question, problem, order, proveBound, (_, _) => true);
        var model = HouseholdModel.Of(free.Problem);
        var least = Unmet(model, free.Schedule);
        if (Unmet(model, schedule).Compare(least, model, order, SameKwh) <= 0)
        {
            return (Marked(problem, schedule), schedule);
        }

        var some = Without(question, problem, order, proveBound, (c, k) => IsBesideShort(problem, schedule, c, k));
        return Unmet(model, some.Schedule).Compare(least, model, order, SameKwh) <= 0
            ? (Marked(some.Problem, some.Schedule), some.Schedule)
            : free;
    }

    private static (HouseholdProblem Problem, HouseholdSchedule Schedule) Without(
        HouseholdCase question, HouseholdProblem asked, ShortfallOrder order, bool proveBound, Func<int, int, bool> givesUp)
    {
        bool[][] keep = [.. asked.Cars.Select((car, c) => car.Problem.Departures.Select((d, k) => d.MarginKept && !givesUp(c, k)).ToArray())];
        var problem = HouseholdProblemBuilder.Build(question, keep);
        return (problem, HouseholdScheduler.Solve(problem, order, Freer, proveBound));
    }

    private static bool IsAsked(DepartureTarget departure) => departure.DueBoundary < departure.Boundary;

    private static bool IsMissed(DepartureTarget departure, CarSchedule car) =>
        IsAsked(departure) && car.StoredKwh[departure.DueBoundary] < departure.RequiredKwh - ScheduleCheck.LimitTolerance;

    private static bool Misses(HouseholdProblem problem, HouseholdSchedule schedule) =>
        problem.Cars.Zip(schedule.Cars).Any(car => car.First.Problem.Departures.Any(d => IsMissed(d, car.Second)));

    private static bool IsShort(HouseholdSchedule schedule) =>
        schedule.Cars.Any(c => c.TripShortfallKwh.Concat(c.TargetShortfallKwh).Any(kwh => kwh > SameKwh));

    /// <summary>Whether a margin is missed, or its departure or the one before it is short: the trip shortfall of that one may pay for it.</summary>
    private static bool IsBesideShort(HouseholdProblem problem, HouseholdSchedule schedule, int c, int k)
    {
        var car = schedule.Cars[c];
        return IsMissed(problem.Cars[c].Problem.Departures[k], car)
            || Enumerable.Range(Math.Max(0, k - 1), k > 0 ? 2 : 1).Any(d => car.TripShortfallKwh[d] + car.TargetShortfallKwh[d] > SameKwh);
    }

    /// <summary>What a schedule leaves unmet under the bounds without margins.</summary>
    private static HouseholdShortfalls Unmet(HouseholdModel withoutMargins, HouseholdSchedule schedule)
    {
        var below = 0.0;
        var final = new double[schedule.Cars.Count];
        for (var c = 0; c < final.Length; c++)
        {
            var (own, stored) = (withoutMargins.Problem.Cars[c].Problem, schedule.Cars[c].StoredKwh);
            below += own.LowerKwh.Zip(stored, (lower, kwh) => Math.Max(0, lower - kwh)).Sum();
            final[c] = Math.Max(0, (own.FinalKwh ?? 0) - stored[^1]);
        }

        return new(below, [.. schedule.Cars.Select(c => c.TripShortfallKwh)], [.. schedule.Cars.Select(c => c.TargetShortfallKwh)], final);
    }

    private static HouseholdProblem Marked(HouseholdProblem problem, HouseholdSchedule schedule) => problem with
    {
        Cars =
        [
            .. problem.Cars.Zip(schedule.Cars, (car, own) => car with
            {
                Problem = car.Problem with
                {
                    Departures = [.. car.Problem.Departures.Select(d => IsMissed(d, own) ? d with { MarginKept = false } : d)],
                },
            }),
        ],
    };
}
