using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Comparison.Year.Nights;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Comparison.Year;

/// <summary>Least cost with the whole year known ahead: of the schedules found the cheapest, simulated, that is as ready as the first; and its bound.</summary>
internal sealed class KnownAheadYear
{
    // Of the bill without the car: a quarter of the gap of 0.2 % of the whole that is asked for.
    private const double FineShare = 0.0005;

    private const double HalfCent = 0.005;

    /// <summary>What is said of a run that costs less than the bound.</summary>
    public const string BelowBound =
        "It costs less than its bound: the bound keeps the limits of the battery, and what the taper took was charged earlier than they allow.";

    private readonly YearFrame frame;
    private readonly SetUpYear year;
    private readonly PlanYear plan;
    private readonly ChargingProblem problem;
    private readonly bool isMetered;
    private readonly ShortfallOrder order;
    private readonly double fine;

    private KnownAheadYear(YearFrame frame, SetUpYear year, PlanYear plan)
    {
        (this.frame, this.year, this.plan) = (frame, year, plan);
        problem = year.At(plan);

        // Each interval lies in one of the meter's.
        isMetered = problem.Boundaries == year.Unpriced.Boundaries;
        order = frame.Question.ShortfallOrder;
        fine = FineShare * (double)Math.Max(1, plan.BillWithoutCar.Total);
    }

    /// <summary>Runs it.</summary>
    public static YearRun Run(YearFrame frame, SetUpYear year, PlanYear plan) => new KnownAheadYear(frame, year, plan).Cheapest();

    private YearRun Cheapest()
    {
        var (plans, bound) = Solved(problem);
        var found = plans.SelectMany(Runs).ToList();
        if (!plan.Coupled.IsConvex)
        {
            // Where more may be cheaper the search finds what it finds: what a household got without knowing the year ahead is no worse a schedule.
            found.AddRange(frame.Question.Behaviours.OfType<LeastCostByNight>().Select(b => Of(NightRun.Run(frame, problem, year.Nights(b, problem), plan, b), plans[0])));
        }

        var ready = found.Where(r => r.Run.Readiness.IsNoWorseThan(found[0].Run.Readiness)).ToArray();
        var cheapest = ready.Length == 1 ? ready[0] : ready.MinBy(r => r.Run.CashOn(frame, plan))!;
        var run = cheapest.Run with { Bound = YearBound.Of(bound, cheapest.Plan.Best.TripShortfallKwh.Sum()) };
        if (run.Bound is null)
        {
            return run;
        }

        // Made up for the taper it may have charged earlier above the ordinary limit than a plan may, and so at less power.
        var bill = plan.BillWith(run.Car);
        var correction = run.Correction(frame, plan, bill);
        return run.Bound.WholeHouse(frame, plan, correction) <= bill.Total + run.Away.Cost + correction.Cost ? run : run with { Warnings = [.. run.Warnings, BelowBound] };
    }

    private (CoupledPlan[] Plans, double? Bound) Solved(ChargingProblem asked)
    {
        // What is sought at the prices that bound the bill is bounded by the way.
        var isBounded = plan.Least.HasBound && !plan.Least.Bill.IsLower && isMetered;
        if (plan.Coupled.IsEmpty && (!isBounded || asked.Price.All(p => p >= 0)))
        {
            var best = Scheduler.Solve(asked, SolverChoice.Direct, order);
            return ([new CoupledPlan(best, null, best.Cost) { Solved = asked }], Stops(isBounded ? best.Cost : BoundApart()));
        }

        var (plain, coupled, bound) = CoupledYear.Solve(asked, plan.Coupled, order, fine);
        return (coupled == plain ? [plain] : [coupled, plain], Stops(isBounded ? bound : BoundApart()));

        double? BoundApart() => plan.Least.Priced(asked) is { } priced ? CoupledYear.Solve(priced, plan.Least.Charges, order, fine).Bound : null;

        // What is paid at stops is rounded once.
        double? Stops(double? cost) => asked.Place.Contains(Place.Stop) ? cost - HalfCent : cost;
    }

    /// <summary>The runs of a plan until one costs hardly more than planned.</summary>
    private IEnumerable<Simulated> Runs(CoupledPlan planned)
    {
        var away = (double)AwayCharging.Buy(planned.Best.TripShortfallKwh.Sum(), frame.Question.AwayPricePerKwh).Cost;
        foreach (var replay in TaperedYear.Runs(problem, planned, order))
        {
            var simulated = Of(replay, planned);
            yield return simulated;
            var run = simulated.Run;
            var cost = plan.Coupled.IsEmpty ? replay.CostAt(problem) : (double)(plan.BillWith(run.Car).Total - plan.IdleTotal + run.Away.StopCost);
            if (cost + (double)run.Away.PublicCost - away - planned.Cost <= fine)
            {
                yield break;
            }
        }
    }

    private Simulated Of(ReplayResult replay, CoupledPlan planned) => new(
        YearRun.Of(frame, problem, replay, planned.Best.LimitReached ? ["The solver reached its limit; a shortfall may fall on other departures than asked."] : []), replay, planned);

    private sealed record Simulated(YearRun Run, ReplayResult Replay, CoupledPlan Plan);
}
