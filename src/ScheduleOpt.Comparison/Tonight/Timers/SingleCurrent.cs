using NodaTime;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tonight.Timers;

/// <summary>The current to set where only one setting is possible, though limits by hours differ.</summary>
/// <remarks>
/// With one setting the car can't charge in hours that allow less. Between two limits more current is never worse (the share of time at it can be lowered, and r/P
/// rises with P), so that only the full current and the limits themselves are looked at, each with a schedule of its own. Where power has a price of its own less can be better: then the
/// mean current of the schedule is looked at too, and no other.
/// </remarks>
/// <param name="CurrentA">The current. [A, per phase]</param>
/// <param name="Plan">The schedule with it.</param>
/// <param name="CostAbove">What it costs above the full schedule for as much energy at the end. [currency]</param>
/// <param name="MissingKwh">What departures have less than with the full schedule, of what they ask for. [kWh]</param>
public sealed record SingleCurrent(double CurrentA, NightPlan Plan, double CostAbove, double MissingKwh)
{
    private const double SameKwh = 0.01;

    /// <summary>Whether every departure is served as well as with the full schedule.</summary>
    public bool IsAsReady => MissingKwh == 0;

    /// <summary>What it adds to the bill over the horizon. [currency]</summary>
    public required double ExtraBill { get; init; }

    /// <summary>What is stored more at the horizon's end, by all cars. [kWh]</summary>
    public required double ExtraKwh { get; init; }

    /// <summary>The best single current; null where the car can't charge at home.</summary>
    /// <param name="question">The question.</param>
    /// <param name="plan">The full schedule for it.</param>
    /// <param name="car">Index of the car.</param>
    public static SingleCurrent? Of(NightQuestion question, NightPlan plan, int car = 0)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(plan);
        var own = plan.Cars[car];
        if (own.Case.Supply is not { } supply || own.FullCurrentA <= 0)
        {
            return null;
        }

        // A limit that is no less than the full current, such as that of a shared circuit, limits nothing further.
        var limits = own.Case.CurrentLimits.Where(l => l.MostA < own.FullCurrentA && Touches(l.Hours, own.Case)).Select(l => l.MostA).ToArray();
        var isOne = limits.Length == 0 && !own.Car.Rules.Adjustable;
        SingleCurrent? best = null;
        foreach (var current in limits.Concat(Planned(own)).Where(a => a >= own.Car.LeastA && a < own.FullCurrentA).Append(own.FullCurrentA).Distinct().OrderDescending())
        {
            // Where nothing limits the current further, the full schedule is the one with it.
            var with = isOne ? plan : NightPlanner.Plan(Setting(question, car, supply, current), proveBound: false);
            var choice = new SingleCurrent(current, with, CostAsMuchStored(with, plan) - CostAsMuchStored(plan, plan), Missing(with, plan))
            {
                ExtraBill = with.Cost - plan.Cost,
                ExtraKwh = StoredAtEnd(with) - StoredAtEnd(plan),
            };
            if (best is null || choice.IsBetterThan(best))
            {
                best = choice;
            }
        }

        return best;
    }

    /// <summary>Of a car whose current can be set, the mean of the schedule, up to a tenth of an ampere: over the same time it stores as much. [A, per phase]</summary>
    private static IEnumerable<double> Planned(CarPlan own)
    {
        if (!own.Car.Rules.Adjustable || own.Steps.Count == 0)
        {
            return [];
        }

        var mean = own.Steps.Sum(s => s.CurrentA * s.Hours) / own.Steps.Sum(s => s.Hours);
        return [own.Car.Rules.WholeAmperes ? Math.Ceiling(mean) : Math.Ceiling(mean * 10) / 10];
    }

    private static NightQuestion Setting(NightQuestion question, int car, Supply supply, double currentA) => question with
    {
        Case = question.Case with
        {
            Cars =
            [
                .. question.Case.Cars.Select((c, k) => k == car ? c with { Case = With(c.Case, supply, currentA), Rules = c.Rules with { Adjustable = false } } : c),
            ],
        },
    };

    /// <summary>The question with one current and nothing else: hours that allow less have no charging.</summary>
    internal static ChargingCase With(ChargingCase question, Supply supply, double currentA) => question with
    {
        Supply = supply with { UnitLimitA = Math.Min(currentA, supply.UnitLimitA ?? double.PositiveInfinity) },
        CurrentLimits = [],
        NoCharging = [.. question.NoCharging, .. question.CurrentLimits.Where(l => l.MostA < currentA).Select(l => l.Hours)],
    };

    private bool IsBetterThan(SingleCurrent other) =>
        Math.Abs(MissingKwh - other.MissingKwh) > SameKwh ? MissingKwh < other.MissingKwh : CostAbove < other.CostAbove - 1e-9;

    private static bool Touches(Interval hours, ChargingCase question) =>
        (!hours.HasStart || hours.Start < question.End) && (!hours.HasEnd || hours.End > question.Start);

    private static double StoredAtEnd(NightPlan plan) => plan.Cars.Sum(c => c.Replay.StoredKwh[^1]);

    private static double CostAsMuchStored(NightPlan plan, NightPlan full) =>
        plan.Cost - full.Cars.Zip(plan.Cars, (f, own) => f.Problem.EndValuePerKwh * Math.Min(f.Problem.OrdinaryKwh, own.Replay.StoredKwh[^1])).Sum();

    private static double Missing(NightPlan own, NightPlan full)
    {
        var missing = 0.0;
        for (var c = 0; c < full.Cars.Count; c++)
        {
            for (var k = 0; k < full.Cars[c].Departures.Count; k++)
            {
                var (mine, theirs) = (own.Cars[c].Departures[k], full.Cars[c].Departures[k]);
                var more = mine.TripShortfallKwh + mine.TargetShortfallKwh - theirs.TripShortfallKwh - theirs.TargetShortfallKwh;
                missing += more > SameKwh ? more : 0;
            }
        }

        return missing;
    }
}
