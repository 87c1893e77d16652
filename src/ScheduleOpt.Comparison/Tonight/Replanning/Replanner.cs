using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight.Replanning;

/// <summary>Chooses between a new plan and the windows of an earlier one, so that a hub that asks every few minutes does not get new windows for nothing.</summary>
/// <remarks>
/// The earlier windows of the stays before the second departure are brought to the energy that the new plan stores in each: of one car whose charges nothing couples at their edges, the cheapest
/// first; otherwise the household is solved again with no other hours (<see cref="KeptHours"/>). They are kept if every departure is served as well, every limit holds, and the new windows would
/// save no more than the threshold. Where both stays can't be kept, the first alone is tried, and of several cars then each alone. Stays after that have the new windows.
/// </remarks>
public static class Replanner
{
    private const int StaysKept = 2;

    /// <summary>The plan to follow.</summary>
    /// <param name="fresh">The new plan, from the measured states of charge on.</param>
    /// <param name="earlier">What the earlier answer said of each car, in their order; none: nothing.</param>
    public static Replanning Choose(NightPlan fresh, IReadOnlyList<EarlierPlan?> earlier)
    {
        ArgumentNullException.ThrowIfNull(fresh);
        ArgumentNullException.ThrowIfNull(earlier);
        TakenLess?[] less = [.. fresh.Cars.Zip(earlier, (car, before) => TakenLess.Of(car.Problem, before?.ExpectedKwh))];
        foreach (var (cars, stays) in fresh.CheckFindings.Count == 0 ? Ways(earlier) : [])
        {
            var kept = fresh.Route == SolveRoute.Shares ? Kept(fresh, earlier[0]!, stays) : KeptHours.Plan(fresh, earlier, cars, stays);
            if (kept is not null && CostAsMuchStored(kept) - CostAsMuchStored(fresh) is var given && given <= (double)cars.Min(c => earlier[c]!.KeepUnlessCheaperBy) + 1e-9)
            {
                return new Replanning(kept, true, Math.Max(0, given), less);
            }
        }

        return new Replanning(fresh, false, 0, less);
    }

    private static IEnumerable<(int[] Cars, int Stays)> Ways(IReadOnlyList<EarlierPlan?> earlier)
    {
        int[] all = [.. Enumerable.Range(0, earlier.Count).Where(c => earlier[c] is { Windows.Count: > 0 })];
        for (var stays = StaysKept; all.Length > 0 && stays >= 1; stays--)
        {
            yield return (all, stays);
        }

        foreach (var one in all.Length > 1 ? all : [])
        {
            yield return ([one], 1);
        }
    }

    private static NightPlan? Kept(NightPlan fresh, EarlierPlan earlier, int stays)
    {
        var car = fresh.Cars[0];
        var problem = car.Problem;
        var windows = new List<ChargingWindow>();
        var any = false;
        var number = 0;
        foreach (var stay in HomeStay.Of(problem))
        {
            var (start, end) = (problem.Boundaries[stay.First], problem.Boundaries[stay.End]);
            var ofFresh = car.Windows.Where(w => w.Start >= start && w.End <= end);
            var ofEarlier = number++ < stays ? KeptWindows.Within(problem, stay, earlier.Windows) : [];
            if (ofEarlier.Count == 0)
            {
                windows.AddRange(ofFresh);
                continue;
            }

            any = true;
            var gain = car.Planned.StoredKwh[stay.End] - car.Planned.StoredKwh[stay.First];
            if (!KeptWindows.Adjust(problem, stay, ofEarlier, gain))
            {
                return null;
            }

            windows.AddRange(ofEarlier);
        }

        if (!any)
        {
            return null;
        }

        CarRun[] run = [TaperAllowance.Apply(car.Car, car.Planned, car.Car.MostA, windows)];
        var findings = NightPlanner.FindingsOf(fresh.Question, fresh.Problem, run);
        if (findings.Count > 0 || !Serves(problem, run[0].Replay, car.Replay))
        {
            return null;
        }

        return NightAccount.Of(fresh.Question, fresh.Problem, fresh.Schedule, run, ArrivalRuns.Of(fresh.Problem), findings);
    }

    /// <summary>Whether every departure, and every moment at home, has as much as with the new plan or as is asked for.</summary>
    internal static bool Serves(ChargingProblem problem, ReplayResult kept, ReplayResult fresh)
    {
        for (var k = 0; k < problem.Departures.Length; k++)
        {
            var due = problem.Departures[k].DueBoundary;
            var missing = Math.Max(0, problem.Departures[k].RequiredKwh - fresh.StoredKwh[due]);
            if (kept.TripShortfallKwh[k] > fresh.TripShortfallKwh[k] + NightPlanner.NegligibleKwh
                || kept.TargetShortfallKwh[k] > fresh.TargetShortfallKwh[k] + NightPlanner.NegligibleKwh
                || problem.Departures[k].RequiredKwh - kept.StoredKwh[due] > missing + NightPlanner.NegligibleKwh)
            {
                return false;
            }
        }

        for (var b = 0; b <= problem.Count; b++)
        {
            if (kept.StoredKwh[b] < Math.Min(problem.LowerKwh[b], fresh.StoredKwh[b]) - NightPlanner.NegligibleKwh)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Cost less what is stored at the end is worth. [currency]</summary>
    private static double CostAsMuchStored(NightPlan plan) =>
        plan.Cost + plan.CarbonCost
        - plan.Cars.Sum(c => c.Problem.EndValuePerKwh * Math.Min(c.Problem.OrdinaryKwh, c.Replay.StoredKwh[^1]));
}

/// <summary>The plan to follow while the car is plugged in.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="KeptEarlier">Whether it keeps windows of the earlier one.</param>
/// <param name="GivenUp">What new windows would have saved. [currency] Zero or more, at most the threshold.</param>
/// <param name="Notices">Of each car, that it took less than planned; none: it did not.</param>
public sealed record Replanning(NightPlan Plan, bool KeptEarlier, double GivenUp, IReadOnlyList<TakenLess?> Notices);
