using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year.Nights;
using ScheduleOpt.Scheduling;
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

    /// <summary>What house and car cost on a rate plan, cash. [currency]</summary>
    public decimal CashOn(YearFrame frame, PlanYear plan)
    {
        var bill = plan.BillWith(Car);
        return bill.Total + Away.Cost + Correction(frame, plan, bill).Cost;
    }

    /// <summary>A simulation of the year.</summary>
    public static YearRun Of(YearFrame frame, ChargingProblem problem, ReplayResult replay, IReadOnlyList<string> warnings)
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
