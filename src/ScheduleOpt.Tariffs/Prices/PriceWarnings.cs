using NodaTime;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What a price per kWh leaves out.</summary>
internal static class PriceWarnings
{
    public static List<string> Of(RatePlan plan, Instant from, Instant until)
    {
        var warnings = new List<string>();
        if (plan.DemandCharges.Count > 0)
        {
            warnings.Add($"{plan.Name} has a demand charge, which is not in the price per kWh.");
        }

        if (plan.MinimumBill is not null)
        {
            warnings.Add($"{plan.Name} has a minimum bill, which is not in the price per kWh: below it, one more kWh costs nothing.");
        }

        if (from.InZone(plan.Zone).Date < plan.EffectiveFrom
            || (until - Duration.Epsilon).InZone(plan.Zone).Date > (plan.EffectiveUntil ?? LocalDate.MaxIsoValue))
        {
            warnings.Add($"The rate plan {plan.Id} is not effective on all of these dates.");
        }

        return warnings;
    }
}
