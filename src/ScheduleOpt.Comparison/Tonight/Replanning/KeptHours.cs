using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight.Replanning;

/// <summary>Earlier windows kept where charges are coupled: the household is solved again, and in the stays that are kept a car has no hours but those of its earlier windows.</summary>
/// <remarks>Hours are whole intervals of the grid, so that an edge may move within one. Where they are too few for what the new plan stores, intervals beside them are added, the cheapest first. A window
/// under way goes on from the start.</remarks>
internal static class KeptHours
{
    private const double SameKwh = 1e-6;

    /// <summary>The plan with earlier windows kept; null where it does not serve every departure as well, or does not hold.</summary>
    /// <param name="fresh">The new plan.</param>
    /// <param name="earlier">What was planned for each car.</param>
    /// <param name="cars">The cars whose windows are kept.</param>
    /// <param name="stays">How many stays of each.</param>
    public static NightPlan? Plan(NightPlan fresh, IReadOnlyList<EarlierPlan?> earlier, int[] cars, int stays)
    {
        var allowed = new Dictionary<int, bool[]>();
        foreach (var c in cars)
        {
            if (Hours(fresh.Cars[c], earlier[c]!, stays) is { } hours)
            {
                allowed.Add(c, hours);
            }
        }

        if (allowed.Count == 0)
        {
            return null;
        }

        if (allowed.All(a => IsWithin(fresh.Cars[a.Key], a.Value) && UnderWay(fresh.Cars[a.Key].Steps, earlier[a.Key]!, fresh) is null))
        {
            return fresh;
        }

        var schedule = Solve(fresh, allowed);
        var interrupted = false;
        foreach (var (c, hours) in allowed)
        {
            if (UnderWay(schedule.Cars[c].Steps, earlier[c]!, fresh) is { } window)
            {
                interrupted = true;
                FromTheStart(fresh.Cars[c].Problem, hours, schedule.Cars[c].Shares, window);
            }
        }

        schedule = interrupted ? Solve(fresh, allowed) : schedule;
        if (HouseholdCheck.Findings(fresh.Problem, schedule, fresh.Question.Case).Count > 0)
        {
            return null;
        }

        var runs = NightPlanner.Runs(fresh.Question, fresh.Problem, schedule);
        var findings = NightPlanner.FindingsOf(fresh.Question, fresh.Problem, runs);
        return findings.Count > 0 || runs.Where((run, c) => !Replanner.Serves(fresh.Cars[c].Problem, run.Replay, fresh.Cars[c].Replay)).Any()
            ? null
            : NightAccount.Of(fresh.Question, fresh.Problem, schedule, runs, ArrivalRuns.Of(fresh.Problem), findings) with { SearchGap = fresh.SearchGap };
    }

    /// <summary>Solves with fewer hours; the bound is that of the question with all of them.</summary>
    private static HouseholdSchedule Solve(NightPlan fresh, Dictionary<int, bool[]> allowed)
    {
        var problem = fresh.Problem with
        {
            Cars =
            [
                .. fresh.Problem.Cars.Select((car, c) =>
                {
                    if (!allowed.TryGetValue(c, out var hours))
                    {
                        return car;
                    }

                    double[] most = [.. car.MostA.Zip(hours, (a, isAllowed) => isAllowed ? a : 0)];
                    return car with { MostA = most, Problem = LimitedCar.At(car, most) };
                }),
            ],
        };
        return HouseholdScheduler.Solve(problem, fresh.Question.Order, proveBound: false) with
        {
            Bound = fresh.Schedule.Bound, Route = fresh.Route, LimitReached = fresh.Schedule.LimitReached,
        };
    }

    /// <summary>The intervals in which a car may charge; null where none of its earlier windows lie in a stay that is kept.</summary>
    private static bool[]? Hours(CarPlan car, EarlierPlan earlier, int stays)
    {
        var problem = car.Problem;
        var hours = new bool[problem.Count];
        Array.Fill(hours, true);
        var any = false;
        foreach (var stay in HomeStay.Of(problem).Take(stays))
        {
            var windows = KeptWindows.Within(problem, stay, earlier.Windows);
            if (windows.Count == 0)
            {
                continue;
            }

            any = true;
            var room = 0.0;
            for (var i = stay.First; i < stay.End; i++)
            {
                hours[i] = windows.Any(w => w.Start < problem.Boundaries[i + 1] && w.End > problem.Boundaries[i]);
                room += hours[i] ? problem.NetKw[i] * problem.Hours[i] : 0;
            }

            Lengthen(problem, stay, hours, car.Planned.StoredKwh[stay.End] - car.Planned.StoredKwh[stay.First] - room);
        }

        return any ? hours : null;
    }

    private static void Lengthen(ChargingProblem problem, HomeStay stay, bool[] hours, double missingKwh)
    {
        while (missingKwh > SameKwh)
        {
            var best = -1;
            for (var i = stay.First; i < stay.End; i++)
            {
                var beside = !hours[i] && problem.NetKw[i] > 0 && ((i > stay.First && hours[i - 1]) || (i + 1 < stay.End && hours[i + 1]));
                best = beside && (best < 0 || PerStored(problem, i) < PerStored(problem, best)) ? i : best;
            }

            if (best < 0)
            {
                return;
            }

            hours[best] = true;
            missingKwh -= problem.NetKw[best] * problem.Hours[best];
        }
    }

    private static double PerStored(ChargingProblem problem, int i) => problem.Price[i] * problem.WallKw[i] / problem.NetKw[i];

    private static bool IsWithin(CarPlan car, bool[] hours)
    {
        for (var i = 0; i < hours.Length; i++)
        {
            if (!hours[i] && car.Problem.Place[i] == Place.Home && car.Shares[i] > SameKwh)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>An earlier window under way at the start that steps leave off now and take up again later; null where there is none.</summary>
    private static ChargingWindow? UnderWay(IReadOnlyList<CurrentStep> steps, EarlierPlan earlier, NightPlan fresh)
    {
        var start = fresh.Problem.Boundaries[0];
        foreach (var window in earlier.Windows.Where(w => w.Start < start && w.End > start))
        {
            return steps.Any(s => s.Start > start && s.Start < window.End) && !steps.Any(s => s.Start <= start) ? window : null;
        }

        return null;
    }

    /// <summary>Of a window under way so much from the start as was used of it.</summary>
    private static void FromTheStart(ChargingProblem problem, bool[] hours, double[] shares, ChargingWindow window)
    {
        var left = 0.0;
        for (var i = 0; i < hours.Length && problem.Boundaries[i] < window.End; i++)
        {
            left += shares[i] * problem.Hours[i];
        }

        for (var i = 0; i < hours.Length && problem.Boundaries[i] < window.End; i++)
        {
            hours[i] = left > SameKwh;
            left -= problem.Hours[i];
        }
    }
}
