using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Comparison.Year.Nights;

/// <summary>A year planned night by night and run as it really was, on the simulator of all behaviours.</summary>
/// <remarks>
/// The charger follows the planned energy, not the planned minutes: it stops where the plan has what it wants, and where the true rate was lower it goes on
/// in the hours in which the plan charges; what is then missing for the departure is charged in the last hours before it. A car below its minimum charges at once.
/// </remarks>
internal sealed class NightRun
{
    private const double SameKwh = 1e-6;

    // Above this share of usable energy a plan may meet the taper, which it does not know.
    private const double NearFull = 0.85;

    private readonly YearFrame frame;
    private readonly ChargingProblem year;
    private readonly ReplayRun run;
    private readonly CoupledNights? coupled;
    private readonly ExpectedPrices prices;
    private readonly double extendedKwh;

    private NightRun(YearFrame frame, ChargingProblem year, PlanYear plan, LeastCostByNight behaviour)
    {
        (this.frame, this.year) = (frame, year);
        run = new ReplayRun(year);
        coupled = plan.Coupled.IsEmpty ? null : new CoupledNights(plan, year, frame.Span, behaviour.Errors.HouseDays);
        prices = new ExpectedPrices(year, plan.Hourly, behaviour.Errors.PriceDays);
        extendedKwh = year.UsableKwh * frame.Question.Vehicle.ExtendedLimit.Fraction;
    }

    /// <summary>Runs it.</summary>
    /// <param name="frame">The case.</param>
    /// <param name="year">The year as it really was, at the plan's prices.</param>
    /// <param name="nights">The forecasts on its grid.</param>
    /// <param name="plan">The rate plan.</param>
    /// <param name="behaviour">The behaviour.</param>
    public static ReplayResult Run(YearFrame frame, ChargingProblem year, NightForecast[] nights, PlanYear plan, LeastCostByNight behaviour)
    {
        var nightRun = new NightRun(frame, year, plan, behaviour);
        while (nightRun.run.Next < (nights.Length > 0 ? nights[0].First : year.Count))
        {
            nightRun.run.Step(0);
        }

        foreach (var night in nights)
        {
            nightRun.Pass(night);
        }

        return nightRun.run.Result;
    }

    private void Pass(NightForecast night)
    {
        var problem = Problem(night);
        var (shares, stored, most) = Plan(night, problem);
        var decided = night.Until - night.First;
        var departure = problem.Departures.Length > 0 && problem.Departures[0].Boundary <= decided ? problem.Departures[0].Boundary : -1;
        for (var i = night.First; i < night.Until; i++)
        {
            var k = i - night.First;
            var planned = stored[k + 1];
            var share = year.Place[i] switch
            {
                Place.Home => AtHome(i, shares[k], planned, k < departure ? departure : -1, stored, night.First, most?[k] ?? 1),
                Place.Stop => Until(i, shares[k], Math.Max(planned, Math.Min(year.UsableKwh, run.StoredKwh))),
                _ => 0,
            };
            run.Step(share);
        }

        coupled?.Passed(night, run.Result.WallKwh);
    }

    private ChargingProblem Problem(NightForecast night)
    {
        var problem = night.Problem with { InitialKwh = run.StoredKwh };
        if (run.StoredKwh > year.OrdinaryKwh || run.StoredKwh < year.MinimumKwh)
        {
            problem = ChargingProblemBuilder.WithLimits(problem, extendedKwh);
        }

        var expected = prices.On(night);
        coupled?.AddBlocks(night, expected);
        coupled?.MindMinimums(night, expected);
        return ChargingProblemBuilder.WithPrices(problem, expected);
    }

    private (double[] Shares, double[] Stored, double[]? Most) Plan(NightForecast night, ChargingProblem problem)
    {
        if (coupled?.HasPeaks == true)
        {
            var plan = coupled.Plan(night, problem, frame.Question.ShortfallOrder);
            return (plan.Best.Shares, plan.Best.StoredKwh, plan.Most);
        }

        var best = Scheduler.Solve(problem, SolverChoice.Direct, frame.Question.ShortfallOrder);
        var fine = night.Until - night.First;
        if (best.StoredKwh.AsSpan(0, Math.Min(fine, problem.Count) + 1).ToArray().Max() <= NearFull * problem.UsableKwh)
        {
            return (best.Shares, best.StoredKwh, null);
        }

        var (shares, replay) = TaperMakeUp.Lengthened(problem, best, null);
        return (shares, replay.StoredKwh, null);
    }

    /// <summary>The share of an interval at home in which the car charges.</summary>
    private double AtHome(int interval, double planned, double plannedKwh, int departure, double[] stored, int first, double most)
    {
        if (year.NetKw[interval] <= 0)
        {
            return 0;
        }

        var hours = year.Hours[interval];
        var toMinimum = ChargingInverse.HoursTo(year, interval, run.StoredKwh, year.MinimumKwh);
        var follows = planned > 0 ? ChargingInverse.HoursTo(year, interval, run.StoredKwh, plannedKwh) : 0;
        var lasting = 0.0;
        if (departure >= 0 && run.StoredKwh < stored[departure] - SameKwh)
        {
            // What must be charged now so that the rest of the stay, at this rate, is enough.
            var missing = ChargingInverse.HoursTo(year, interval, run.StoredKwh, Math.Min(stored[departure], year.UsableKwh));
            var left = (year.Boundaries[first + departure] - year.Boundaries[interval + 1]).TotalHours;
            lasting = double.IsFinite(missing) ? missing - (left * most) : 0;
        }

        return Math.Clamp(Math.Max(toMinimum / hours, Math.Min(most, Math.Max(follows, lasting) / hours)), 0, 1);
    }

    private double Until(int interval, double planned, double goalKwh) => year.NetKw[interval] <= 0 || planned <= 0
        ? 0
        : Math.Clamp(ChargingInverse.HoursTo(year, interval, run.StoredKwh, goalKwh) / year.Hours[interval], 0, 1);
}
