using NodaTime;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tonight.Timers;

/// <summary>The current to set where only one setting is possible, though limits by hours differ.</summary>
/// <remarks>
/// With one setting the car can't charge in hours that allow less. Between two limits more current is never worse (the share of time at it can be lowered, and r/P
/// rises with P), so that only the full current and the limits themselves are looked at, each with a schedule of its own.
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

    /// <summary>The best single current; null where the car can't charge at home.</summary>
    /// <param name="question">The question.</param>
    /// <param name="plan">The full schedule for it.</param>
    public static SingleCurrent? Of(NightQuestion question, NightPlan plan)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(plan);
        var only = plan.Cars[0];
        if (only.Case.Supply is not { } supply || only.FullCurrentA <= 0)
        {
            return null;
        }

        var limits = only.Case.CurrentLimits.Where(l => Touches(l.Hours, only.Case)).Select(l => l.MostA).ToArray();
        SingleCurrent? best = null;
        foreach (var current in limits.Where(a => a >= only.Case.Vehicle.MinimumCurrentA && a < only.FullCurrentA)
            .Append(only.FullCurrentA).Distinct().OrderDescending())
        {
            // Where nothing limits the current further, the full schedule is the one with it.
            var own = limits.Length == 0 ? plan : NightPlanner.Plan(question with { Case = question.Case with { Cars = [question.Case.Cars[0] with { Case = With(only.Case, supply, current) }] } });
            var cost = CostAsMuchStored(own, plan) - CostAsMuchStored(plan, plan);
            var choice = new SingleCurrent(current, own, cost, Missing(own, plan));
            if (best is null || choice.IsBetterThan(best))
            {
                best = choice;
            }
        }

        return best;
    }

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

    private static double CostAsMuchStored(NightPlan plan, NightPlan full) =>
        plan.Cost - (full.Cars[0].Problem.EndValuePerKwh * Math.Min(full.Cars[0].Problem.OrdinaryKwh, plan.Cars[0].Replay.StoredKwh[^1]));

    private static double Missing(NightPlan own, NightPlan full)
    {
        var missing = 0.0;
        for (var k = 0; k < full.Cars[0].Departures.Count; k++)
        {
            var more = own.Cars[0].Departures[k].TripShortfallKwh + own.Cars[0].Departures[k].TargetShortfallKwh
                - full.Cars[0].Departures[k].TripShortfallKwh - full.Cars[0].Departures[k].TargetShortfallKwh;
            missing += more > SameKwh ? more : 0;
        }

        return missing;
    }
}
