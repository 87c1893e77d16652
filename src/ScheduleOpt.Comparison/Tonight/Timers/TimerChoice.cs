using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tonight.Timers;

/// <summary>Looks for the best setting of a timer: every moment of a grid of five minutes in each stay to the second departure, each run through the full physics.</summary>
/// <remarks>Best is first what leaves the departure short by least, then what stores least less than the schedule (which stores for later trips too), then what keeps the
/// limits of the schedule, then what costs least, then the latest. The goal is what the schedule stores in that stay, rounded up to a whole per cent: that can be set in
/// the car. A run that stores nothing is none.</remarks>
internal static class TimerChoice
{
    private const int StaysAhead = 2;
    private const double PerCent = 0.01;
    private static readonly Duration Grid = Duration.FromMinutes(5);

    /// <summary>The best setting of a kind, or null where no current allows one.</summary>
    /// <param name="site">The car beside all else.</param>
    /// <param name="byFinish">Whether the timer is told when to finish instead of when to start.</param>
    public static TimerSetting? Best(TimerSite site, bool byFinish)
    {
        TimerSetting? best = null;
        foreach (var current in site.Currents())
        {
            if (Best(site, byFinish, current) is { } setting && (best is null || IsBetter(setting, best)))
            {
                best = setting;
            }
        }

        return best;
    }

    private static TimerSetting? Best(TimerSite site, bool byFinish, double currentA)
    {
        var (plan, problem) = (site.Plan, site.Problem);
        var nights = new List<TimerNight>();

        // The second night is priced beside the first as the timer runs it, so that their costs add up to that of both.
        var ownKw = (double[])site.OwnKw.Clone();
        foreach (var stay in HomeStay.Of(problem).Take(StaysAhead))
        {
            var (arrives, leaves) = (plan.Replay.StoredKwh[stay.First], plan.Replay.StoredKwh[stay.End]);
            if (leaves - arrives <= NightPlanner.NegligibleKwh)
            {
                continue;
            }

            // What whole seconds leave is not worth another per cent.
            var limit = Math.Min(1, Math.Ceiling(((leaves - NightPlanner.NegligibleKwh) / problem.UsableKwh / PerCent) - 1e-9) * PerCent);
            var costOf = site.CostIn(stay, ownKw);
            if (Best(plan, problem, stay, arrives, limit * problem.UsableKwh, byFinish, currentA, costOf) is not { } run)
            {
                return null;
            }

            nights.Add(Night(plan, stay, run, byFinish, limit, costOf([.. Enumerable.Range(stay.First, stay.End - stay.First).Select(site.OwnKwh)])));
            for (var i = stay.First; i < stay.End; i++)
            {
                ownKw[i] = run.WallKwh[i - stay.First] / problem.Hours[i];
            }
        }

        return new TimerSetting(currentA, nights);
    }

    private static TimerRun? Best(
        CarPlan plan, ChargingProblem problem, HomeStay stay, double storedKwh, double goalKwh, bool byFinish, double currentA, Func<double[], double> costOf)
    {
        TimerRun? best = null;
        foreach (var moment in Moments(problem.Boundaries[stay.First], problem.Boundaries[stay.End], byFinish))
        {
            var start = byFinish ? StartFor(problem, stay, storedKwh, moment, goalKwh, currentA) : moment;
            var run = TimerRun.From(problem, stay, storedKwh, start, goalKwh, currentA);
            if (run is not null && byFinish)
            {
                run = run.End > moment ? null : run with { End = moment };
            }

            if (run is null || run.StoredKwh <= storedKwh || (best is not null && ServesWorse(plan, stay, run, best)))
            {
                continue;
            }

            run = run with { Cost = costOf(run.WallKwh) };
            best = best is null || IsBetter(plan, stay, run, best) ? run : best;
        }

        return best;
    }

    private static IEnumerable<Instant> Moments(Instant from, Instant until, bool byFinish)
    {
        var step = (long)Grid.TotalSeconds;
        for (var at = Instant.FromUnixTimeSeconds(((from.ToUnixTimeSeconds() / step) + 1) * step); at < until; at += Grid)
        {
            yield return at;
        }

        yield return byFinish ? until : from;
    }

    /// <summary>The latest start of a run that is done by a moment; the stay's start where it is too short.</summary>
    internal static Instant StartFor(ChargingProblem problem, HomeStay stay, double storedKwh, Instant finish, double goalKwh, double currentA)
    {
        var after = goalKwh;
        var found = Array.BinarySearch(problem.Boundaries, finish);
        for (var i = (found >= 0 ? found : ~found) - 1; i >= stay.First; i--)
        {
            if (TimerRun.WallKw(problem, i, currentA) is not { } wall)
            {
                return problem.Boundaries[i + 1];
            }

            var end = Instant.Min(finish, problem.Boundaries[i + 1]);
            var hours = (end - problem.Boundaries[i]).TotalHours;
            var rate = TimerRun.Rate(problem, i, wall);
            var before = rate <= 0 ? after : ChargingInverse.Before(problem, rate, hours, after);
            if (before <= storedKwh)
            {
                // A second early, so that rounding does not leave it short.
                var start = end - Duration.FromHours(ChargingInverse.HoursTo(problem, rate, storedKwh, after));
                return Instant.Max(problem.Boundaries[stay.First], Instant.FromUnixTimeSeconds(start.ToUnixTimeSeconds()));
            }

            after = before;
        }

        return problem.Boundaries[stay.First];
    }

    // Then its cost need not be known.
    private static bool ServesWorse(CarPlan plan, HomeStay stay, TimerRun run, TimerRun other)
    {
        var (missing, missingOther) = (Missing(plan, stay, run), Missing(plan, stay, other));
        return missing > missingOther || (missing == missingOther && Less(plan, stay, run) > Less(plan, stay, other));
    }

    private static bool IsBetter(CarPlan plan, HomeStay stay, TimerRun run, TimerRun other)
    {
        var (missing, missingOther) = (Missing(plan, stay, run), Missing(plan, stay, other));
        if (missing != missingOther)
        {
            return missing < missingOther;
        }

        var (less, lessOther) = (Less(plan, stay, run), Less(plan, stay, other));
        if (less != lessOther)
        {
            return less < lessOther;
        }

        var (above, aboveOther) = (AboveLimit(plan, run), AboveLimit(plan, other));
        return above != aboveOther ? !above
            : Math.Abs(run.Cost - other.Cost) > 1e-9 ? run.Cost < other.Cost
            : run.Start > other.Start;
    }

    /// <summary>What the departure has less than with the schedule, up to what it asks for. [kWh] Nothing where negligible.</summary>
    internal static double Missing(CarPlan plan, HomeStay stay, TimerRun run)
    {
        var wanted = plan.Replay.StoredKwh[stay.End];
        foreach (var departure in plan.Problem.Departures)
        {
            wanted = departure.Boundary == stay.End ? Math.Min(wanted, departure.RequiredKwh) : wanted;
        }

        var missing = wanted - run.StoredKwh;
        return missing > NightPlanner.NegligibleKwh ? missing : 0;
    }

    // What it stores less than the schedule. [kWh] Nothing where negligible.
    private static double Less(CarPlan plan, HomeStay stay, TimerRun run)
    {
        var less = plan.Replay.StoredKwh[stay.End] - run.StoredKwh;
        return less > NightPlanner.NegligibleKwh ? less : 0;
    }

    /// <summary>Whether it is above the schedule's limit by more than the per cent to which a limit is set.</summary>
    internal static bool AboveLimit(CarPlan plan, TimerRun run) => run.AboveLimitKwh > (PerCent * plan.Problem.UsableKwh) + NightPlanner.NegligibleKwh;

    private static TimerNight Night(CarPlan plan, HomeStay stay, TimerRun run, bool byFinish, double limit, double cost)
    {
        var problem = plan.Problem;
        var more = run.StoredKwh - plan.Replay.StoredKwh[stay.End];
        return new TimerNight(
            byFinish ? run.End : run.Start,
            run.Start,
            run.End,
            limit,
            run.Cost,
            run.Cost - cost - (problem.EndValuePerKwh * more),
            Missing(plan, stay, run),
            AboveLimit(plan, run))
        {
            ExtraBill = run.Cost - cost,
            ExtraKwh = more,
        };
    }

    private static bool IsBetter(TimerSetting setting, TimerSetting other) =>
        setting.MissingKwh != other.MissingKwh ? setting.MissingKwh < other.MissingKwh
        : setting.KeepsLimits != other.KeepsLimits ? setting.KeepsLimits
        : setting.CostAbove < other.CostAbove - 1e-9;
}
