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
    /// <summary>What bounds its cost from below; only for least cost known ahead.</summary>
    public YearBound? Bound { get; init; }

    /// <summary>A behaviour without help.</summary>
    public static YearRun Of(YearFrame frame, ChargingProblem problem, UnaidedBehaviour behaviour) =>
        Of(frame, problem, BehaviourSimulator.Run(problem, behaviour).Replay, []);

    /// <summary>Least cost, known ahead: the cheapest by its simulated bill of the schedules found.</summary>
    public static YearRun KnownAhead(YearFrame frame, SetUpYear year, PlanYear plan)
    {
        var problem = year.At(plan);
        var order = frame.Question.ShortfallOrder;
        if (plan.Coupled.IsEmpty)
        {
            var best = Scheduler.Solve(problem, SolverChoice.Direct, order);
            double? least = plan.Coupled.IsConvex && problem.Price.All(p => p >= 0) ? best.Cost : null;
            return Of(frame, problem, TaperMakeUp.Run(problem, best), Reached(best)) with { Bound = YearBound.Of(least, best) };
        }

        var (plain, coupled, bound) = CoupledYear.Solve(problem, plan.Coupled, order);
        var runs = new[] { coupled, plain }.Distinct()
            .Select(p => Of(frame, problem, TaperMakeUp.Lengthened(problem, p.Best, p.Most).Replay, Reached(p.Best)) with { Bound = YearBound.Of(bound, plain.Best) });
        return runs.MinBy(r => plan.BillWith(r.Car).Total + r.Away.Cost)!;
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
