using System.Globalization;
using NodaTime;
using ScheduleOpt.Comparison.Tonight.Explanations;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Why a schedule costs more than charging on arrival, where it does: everything that charging on arrival does less well or is not held to, counted from both replays.</summary>
/// <remarks>Where it does nothing of the kind it is a schedule like any other: then no more than the gap lies between the costs, and the gap is the reason. Where more lies between them, the reason is not known and that is said.</remarks>
internal static class DearerThanArrival
{
    /// <summary>Below half a cent the costs look the same. [currency]</summary>
    public const double SameMoney = 0.005;

    // Windows end on whole seconds: the costs of two runs may differ by this beside the gap. [currency]
    private const double WholeSeconds = 0.01;

    private static readonly Duration Rounding = Duration.FromSeconds(2);

    /// <summary>The sentence; none where the schedule costs no more.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="runs">What each car does.</param>
    /// <param name="arrival">What each would do by charging on arrival.</param>
    /// <param name="cost">What both add to the bill, to the carbon price, and what they take and don't store below a price of zero. [currency]</param>
    /// <param name="gap">What the schedule may lie above the least. [currency]</param>
    /// <param name="currency">The currency.</param>
    public static string? Sentence(
        HouseholdProblem problem, IReadOnlyList<CarRun> runs, IReadOnlyList<CarRun> arrival, (NightMoney Runs, NightMoney Arrival) cost, double gap, string currency)
    {
        var more = cost.Runs.Bill - cost.Arrival.Bill;
        if (more <= SameMoney)
        {
            return null;
        }

        var reasons = Reasons(problem, runs, arrival, (cost.Arrival.Carbon - cost.Runs.Carbon, cost.Arrival.Burned - cost.Runs.Burned), currency).ToArray();
        var head = $"The schedule costs {Sentences.Money(more, currency)} more than charging on arrival";
        var found = $"the schedule is known to be within {Sentences.Money(gap, currency)} of the least that can be reached";
        return reasons.Length == 0 ? more > gap + WholeSeconds ? $"{head}; nothing was found that charging on arrival does less well." : $"{head}: {found}."
            : $"{head}, which {(reasons.Length == 1 ? reasons[0] : $"{string.Join(", ", reasons[..^1])} and {reasons[^1]}")}"
                + (gap > Math.Max(SameMoney, HouseholdScheduler.FineGapShare * Math.Abs(cost.Runs.Bill)) ? $"; {found}." : ".");
    }

    private static IEnumerable<string> Reasons(
        HouseholdProblem problem, IReadOnlyList<CarRun> runs, IReadOnlyList<CarRun> arrival, (double Carbon, double Burned) extra, string currency)
    {
        double Sum(Func<ChargingProblem, ReplayResult, ReplayResult, double> of) =>
            problem.Cars.Select((car, c) => of(car.Problem, arrival[c].Replay, runs[c].Replay)).Sum();

        if (Sum((_, a, r) => a.TripShortfallKwh.Sum() - r.TripShortfallKwh.Sum()) is > NightPlanner.NegligibleKwh and var trips)
        {
            yield return $"leaves {Kwh(trips)} more to be charged on the way, at a price that is not in its cost";
        }

        if (Sum((_, a, r) => a.TargetShortfallKwh.Zip(r.TargetShortfallKwh, (mine, theirs) => Math.Max(0, mine - theirs)).Sum()) is > NightPlanner.NegligibleKwh and var targets)
        {
            yield return $"leaves departures {Kwh(targets)} further below what they should have";
        }

        if (Sum((p, a, r) => p.Departures.Count(d => d.DueBoundary < d.Boundary && Has(d, r) && !Has(d, a))) is > 0 and var late)
        {
            yield return $"misses the finish margin of {(late == 1 ? "1 departure" : string.Create(CultureInfo.InvariantCulture, $"{late:0} departures"))}";
        }

        if (Sum((_, a, r) => Math.Max(0, r.StoredKwh[^1] - a.StoredKwh[^1])) is > NightPlanner.NegligibleKwh and var end)
        {
            yield return $"stores {Kwh(end)} less at the end";
        }

        var above = problem.Cars.Select((car, c) => Most(car.Problem.Count, b => arrival[c].Replay.StoredKwh[b] - car.Problem.UpperKwh[b])).Max();
        if (above > NightPlanner.NegligibleKwh)
        {
            yield return $"stores up to {Kwh(above)} more than the ordinary limit, and what longer trips need above it, allow at the time";
        }

        var below = problem.Cars.Select((car, c) => Most(
            car.Problem.Count, b => Math.Min(car.Problem.LowerKwh[b], runs[c].Replay.StoredKwh[b]) - arrival[c].Replay.StoredKwh[b])).Max();
        if (below > NightPlanner.NegligibleKwh)
        {
            yield return $"lets a battery be up to {Kwh(below)} further below its minimum";
        }

        if (problem.Cars.Where((car, c) => !KeepsRules(car, arrival[c].Windows)).Any())
        {
            yield return "switches a car on and off otherwise than its running rules allow";
        }

        if (extra.Carbon > SameMoney)
        {
            yield return $"weighs {Sentences.Money(extra.Carbon, currency)} more at the carbon price";
        }

        if (extra.Burned > SameMoney)
        {
            yield return $"is paid {Sentences.Money(extra.Burned, currency)} more for energy that it takes below a price of zero and does not store";
        }
    }

    private static bool Has(DepartureTarget departure, ReplayResult replay) =>
        replay.StoredKwh[departure.DueBoundary] >= departure.RequiredKwh - NightPlanner.NegligibleKwh;

    private static double Most(int count, Func<int, double> of) => Enumerable.Range(0, count + 1).Max(of);

    // On whole seconds, rounded down. A window that ends with its stay may be shorter than the least.
    private static bool KeepsRules(HouseholdCar car, IReadOnlyList<ChargingWindow> windows)
    {
        foreach (var stay in Behaviours.HomeStay.Of(car.Problem))
        {
            var (start, end) = (car.Problem.Boundaries[stay.First], car.Problem.Boundaries[stay.End]);
            ChargingWindow[] own = [.. windows.Where(w => w.Start >= start && w.End <= end)];
            if (own.Length > car.Rules.MostWindows
                || own.Any(w => w.End - w.Start + Rounding < car.Rules.LeastOn && w.End + Rounding < end)
                || own.Zip(own.Skip(1)).Any(p => p.Second.Start - p.First.End + Rounding < car.Rules.LeastOff))
            {
                return false;
            }
        }

        return true;
    }

    private static string Kwh(double kwh) => string.Create(CultureInfo.InvariantCulture, $"{kwh:0.##} kWh");
}

/// <summary>What runs cost. [currency]</summary>
/// <param name="Bill">What they add to the bill.</param>
/// <param name="Carbon">What they add to the carbon price.</param>
/// <param name="Burned">What is earned below a price of zero by energy that is taken and not stored.</param>
internal readonly record struct NightMoney(double Bill, double Carbon, double Burned);
