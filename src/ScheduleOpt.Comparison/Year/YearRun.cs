using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Comparison.Year.Nights;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>One set-up's year with one behaviour, before any bill.</summary>
/// <param name="Energy">The car's energy.</param>
/// <param name="Away">Away charging.</param>
/// <param name="Readiness">Over the year.</param>
/// <param name="ColdestWeek">In the coldest week.</param>
/// <param name="ColdestWeekDays">In the coldest week, day by day.</param>
/// <param name="MissingKwh">Energy at the start less energy at the end. [kWh]</param>
/// <param name="ShortDays">Days on which a trip's need was not met.</param>
/// <param name="Car">What the car takes at the meter at home.</param>
/// <param name="Warnings">What the reader must know.</param>
internal sealed record YearRun(
    YearEnergy Energy,
    AwayCharging Away,
    Readiness Readiness,
    Readiness ColdestWeek,
    IReadOnlyList<DayReadiness> ColdestWeekDays,
    double MissingKwh,
    IReadOnlyList<ShortDay> ShortDays,
    MeteredSeries Car,
    IReadOnlyList<string> Warnings)
{
    // Of the bill without the car: a quarter of the gap of 0.2 % of the whole that is asked for.
    private const double FineShare = 0.0005;

    /// <summary>What bounds its cost from below; only for least cost known ahead.</summary>
    public YearBound? Bound { get; init; }

    /// <summary>A behaviour without help.</summary>
    public static YearRun Of(YearFrame frame, ChargingProblem problem, UnaidedBehaviour behaviour) =>
        Of(frame, problem, BehaviourSimulator.Run(problem, behaviour).Replay, []);

    /// <summary>Least cost, known ahead: of the schedules found the cheapest, simulated, that is as ready as the first.</summary>
    public static YearRun KnownAhead(YearFrame frame, SetUpYear year, PlanYear plan)
    {
        var problem = year.At(plan);
        var order = frame.Question.ShortfallOrder;
        var fine = FineShare * (double)Math.Max(1, plan.BillWithoutCar.Total);
        CoupledPlan[] plans;
        double? bound;
        if (plan.Coupled.IsEmpty)
        {
            var best = Scheduler.Solve(problem, SolverChoice.Direct, order);
            plans = [new CoupledPlan(best, null, best.Cost) { Solved = problem }];
            bound = plan.Coupled.HasBound && problem.Price.All(p => p >= 0) ? best.Cost : null;
        }
        else
        {
            (var plain, var coupled, bound) = CoupledYear.Solve(problem, plan.Coupled, order, fine);
            plans = coupled == plain ? [plain] : [coupled, plain];
        }

        var runs = plans.SelectMany(p => Runs(frame, problem, plan, p, fine)).ToArray();
        if (!plan.Coupled.IsConvex)
        {
            // Where more may be cheaper the search finds what it finds: what a household got without knowing the year ahead is no worse a schedule.
            runs = [.. runs, .. frame.Question.Behaviours.OfType<LeastCostByNight>().Select(b => (ByNight(frame, year, plan, b), runs[0].Best))];
        }

        var ready = runs.Where(r => r.Run.Readiness.IsNoWorseThan(runs[0].Run.Readiness)).ToArray();
        var cheapest = ready.Length == 1 ? ready[0] : ready.MinBy(r => r.Run.CashOn(frame, plan));
        return cheapest.Run with { Bound = YearBound.Of(bound, cheapest.Best) };
    }

    /// <summary>The runs of a plan until one costs hardly more than planned.</summary>
    private static IEnumerable<(YearRun Run, LeastCost Best)> Runs(YearFrame frame, ChargingProblem problem, PlanYear year, CoupledPlan plan, double fine)
    {
        var away = (double)AwayCharging.Buy(plan.Best.TripShortfallKwh.Sum(), frame.Question.AwayPricePerKwh).Cost;
        foreach (var replay in TaperedYear.Runs(problem, plan, frame.Question.ShortfallOrder))
        {
            var run = Of(frame, problem, replay, Reached(plan.Best));
            yield return (run, plan.Best);
            var cost = year.Coupled.IsEmpty ? replay.CostAt(problem) : (double)(year.BillWith(run.Car).Total - year.BillWithoutCar.Total + run.Away.StopCost);
            if (cost + (double)run.Away.PublicCost - away - plan.Cost <= fine)
            {
                yield break;
            }
        }
    }

    /// <summary>Least cost, planned night by night.</summary>
    public static YearRun ByNight(YearFrame frame, SetUpYear year, PlanYear plan, LeastCostByNight behaviour)
    {
        var problem = year.At(plan);
        return Of(frame, problem, NightRun.Run(frame, problem, year.Nights(behaviour, problem), plan, behaviour), []);
    }

    /// <summary>Public charging alone: all that is driven is bought there, before it is needed.</summary>
    public static YearRun PublicOnly(YearFrame frame, SetUpYear year)
    {
        var drive = year.Unpriced.DriveKwh.Sum();
        return new YearRun(
            new YearEnergy(0, 0, drive, 0),
            AwayCharging.Alone(frame.Question, drive),
            Readiness.NotApplicable,
            Readiness.NotApplicable,
            [],
            0,
            [],
            frame.Nothing,
            ["All energy is bought at public charging, stops included; readiness is not a question of the plug."]);
    }

    /// <summary>The correction of its end on a rate plan.</summary>
    public EndCorrection Correction(YearFrame frame, PlanYear plan, Bill bill) =>
        EndCorrection.Of(MissingKwh, bill.Total - plan.BillWithoutCar.Total, Energy.HomeStoredKwh, frame.Question.AwayPricePerKwh);

    private decimal CashOn(YearFrame frame, PlanYear plan)
    {
        var bill = plan.BillWith(Car);
        return bill.Total + Away.Cost + Correction(frame, plan, bill).Cost;
    }

    private static string[] Reached(LeastCost best) =>
        best.LimitReached ? ["The solver reached its limit; a shortfall may fall on other departures than asked."] : [];

    private static YearRun Of(YearFrame frame, ChargingProblem problem, ReplayResult replay, IReadOnlyList<string> warnings)
    {
        var (homeWall, homeStored, stopWall, stopStored, stopCost) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < problem.Count; i++)
        {
            var gained = replay.StoredKwh[i + 1] - replay.StoredKwh[i];
            switch (problem.Place[i])
            {
                case Place.Home:
                    homeWall += replay.WallKwh[i];
                    homeStored += gained;
                    break;
                case Place.Stop:
                    stopWall += replay.WallKwh[i];
                    stopStored += gained;
                    stopCost += replay.WallKwh[i] * problem.Price[i];
                    break;
                default:
                    break;
            }
        }

        var shortfall = replay.TripShortfallKwh.Sum();
        var (kwh, cost) = AwayCharging.Buy(shortfall, frame.Question.AwayPricePerKwh);
        var (span, week) = (frame.Span, frame.ColdestWeek);
        return new YearRun(
            new YearEnergy(homeWall, homeStored, problem.DriveKwh.Sum(), shortfall),
            new AwayCharging(kwh, cost, stopWall, stopStored, Cash.Rounded((decimal)Math.Round(stopCost, 6))),
            Readiness.Of(problem, replay, span.Start, span.End),
            Readiness.Of(problem, replay, week.Start, week.End),
            DayReadiness.Of(week, problem, replay, span),
            replay.StoredKwh[0] - replay.StoredKwh[^1],
            ShortDay.Of(problem, replay, span.Zone.Zone),
            MeteredSeries.FromKilowattHours(span.Start, span.Step, MeterGrid.HomeKwh(problem, replay.WallKwh, span)),
            warnings);
    }
}
