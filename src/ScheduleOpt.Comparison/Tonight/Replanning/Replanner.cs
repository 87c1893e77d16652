using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight.Replanning;

/// <summary>Chooses between a new plan and the windows of an earlier one, so that a hub that asks every few minutes does not get new windows for nothing.</summary>
/// <remarks>
/// The earlier windows of the stays before the second departure are brought to the energy that the new plan stores in each: at their edges, the cheapest first.
/// They are kept if every departure is served as well, every limit holds, and the new windows would save no more than the threshold. Where both stays can't be
/// kept, the first alone is tried. Stays after that have the new windows.
/// </remarks>
public static class Replanner
{
    private const int StaysKept = 2;

    /// <summary>The plan to follow.</summary>
    /// <param name="fresh">The new plan, from the measured state of charge on.</param>
    /// <param name="earlier">What the earlier answer said; of a household whose charges are coupled, only the energy expected is looked at.</param>
    /// <param name="car">Index of the car.</param>
    public static Replanning Choose(NightPlan fresh, EarlierPlan earlier, int car = 0)
    {
        ArgumentNullException.ThrowIfNull(fresh);
        ArgumentNullException.ThrowIfNull(earlier);
        var less = TakenLess.Of(fresh.Cars[car].Problem, earlier.ExpectedKwh);
        for (var stays = StaysKept; stays >= 1 && fresh.CheckFindings.Count == 0 && fresh.Route == SolveRoute.Shares; stays--)
        {
            if (Kept(fresh, earlier, stays) is { } kept)
            {
                return new Replanning(kept, true, Math.Max(0, CostAsMuchStored(kept) - CostAsMuchStored(fresh)), less);
            }
        }

        return new Replanning(fresh, false, 0, less);
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

        var plan = NightAccount.Of(fresh.Question, fresh.Problem, fresh.Schedule, run, ArrivalRuns.Of(fresh.Problem), findings);
        return CostAsMuchStored(plan) - CostAsMuchStored(fresh) <= (double)earlier.KeepUnlessCheaperBy + 1e-9 ? plan : null;
    }

    /// <summary>Whether every departure, and every moment at home, has as much as with the new plan or as is asked for.</summary>
    private static bool Serves(ChargingProblem problem, ReplayResult kept, ReplayResult fresh)
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
/// <param name="Notice">The car took less than planned; none: it did not.</param>
public sealed record Replanning(NightPlan Plan, bool KeptEarlier, double GivenUp, TakenLess? Notice);
