using NodaTime;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>What the reader of a bill must know.</summary>
internal static class BillWarnings
{
    public static List<string> Of(PlanLayout layout, MeteredSeries series)
    {
        var plan = layout.Plan;
        var warnings = new List<string>();
        var (first, last) = (series.Start.InZone(plan.Zone).Date, (series.End - Duration.Epsilon).InZone(plan.Zone).Date);
        if (first < plan.EffectiveFrom || last > (plan.EffectiveUntil ?? LocalDate.MaxIsoValue))
        {
            warnings.Add(FormattableString.Invariant(
                $"The series runs from {first:uuuu-MM-dd} to {last:uuuu-MM-dd}, partly outside the dates on which the rate plan {plan.Id} is effective."));
        }

        foreach (var demand in plan.DemandCharges.Where(d => series.Interval > Duration.FromMinutes(d.AveragingMinutes)))
        {
            warnings.Add(FormattableString.Invariant(
                $"{demand.Name} is for averages over {demand.AveragingMinutes} minutes; the series has longer intervals, so the true demand may be higher."));
        }

        if (plan.Export is null && layout.Input.Export is not null)
        {
            warnings.Add($"{plan.Name} says nothing about exported energy: it is not netted and earns nothing.");
        }

        if (plan.Export?.NettingMinutes is { } minutes && minutes > 0 && series.Interval > Duration.FromMinutes(minutes))
        {
            warnings.Add(FormattableString.Invariant($"{plan.Name} nets over {minutes} minutes; the series has longer intervals, which are netted as they are."));
        }

        foreach (var definition in plan.Events)
        {
            warnings.AddRange(EventRules.Broken(plan, definition, layout.Events[definition.Name]).Select(b => $"{definition.Name}: {b}"));
        }

        return warnings;
    }
}
