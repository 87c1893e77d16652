using NodaTime;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What a price per kWh leaves out.</summary>
internal static class PriceWarnings
{
    public static List<string> Of(RatePlan plan, Instant from, Instant until)
    {
        var warnings = new List<string>();
        if (plan.DemandCharges.Any(d => d.Blocks.Any(b => b.PricePerKw != 0)))
        {
            warnings.Add($"{plan.Name} has a demand charge, which is not in the price per kWh.");
        }

        if (plan.MinimumBill is not null)
        {
            warnings.Add($"{plan.Name} has a minimum bill, which is not in the price per kWh: below it, one more kWh costs nothing.");
        }

        if (plan.CustomerCharges.Any(c => c.UseBand is not null) || plan.Credits.Any(c => c.UseBand is not null))
        {
            warnings.Add($"{plan.Name} has amounts that depend on the use of the billing period, which are not in the price per kWh.");
        }

        if (plan.Rebates.Count > 0)
        {
            warnings.Add($"{plan.Name} pays for using less during events, which is not in the price per kWh.");
        }

        if (plan.Export is { Kind: ExportKind.NetBilling, CreditUse: not CreditUse.ThisBill })
        {
            warnings.Add($"{plan.Name} banks export credit: a price counts it in full, though it is used later or paid in part.");
        }

        if (from.InZone(plan.Zone).Date < plan.EffectiveFrom
            || (until - Duration.Epsilon).InZone(plan.Zone).Date > (plan.EffectiveUntil ?? LocalDate.MaxIsoValue))
        {
            warnings.Add($"The rate plan {plan.Id} is not effective on all of these dates.");
        }

        return warnings;
    }
}
