using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs;

/// <summary>Finds what is odd in a rate plan, though it can be billed: a slip of the decimal point, more often than not.</summary>
public static class RatePlanWarnings
{
    // By the price of the plan's own middle: what holds in dollars, rupees and yen alike.
    private const decimal Many = 20, FewPerCent = 0.0005m;

    /// <summary>Every oddity found. For a plan that <see cref="RatePlanCheck"/> finds in order.</summary>
    public static IReadOnlyList<PlanFault> Of(RatePlan plan)
    {
        var warnings = new List<PlanFault>();
        AddPrices(warnings, plan);
        foreach (var tax in plan.Taxes.Where(t => t.Percent is > 0 and < 0.1m))
        {
            warnings.Add(new($"{tax.Place?.Path ?? "/taxes"}/percent", "A percentage below 0.1 is rare: 7 per cent is written 7, not 0.07.", $"{tax.Percent}"));
        }

        foreach (var definition in plan.Events)
        {
            warnings.AddRange(EventRules.Broken(plan, definition, definition.Past).Select(b =>
                new PlanFault($"{definition.Place?.Path ?? "/events"}/past", "Listed events should keep the plan's own rules.", b)));
        }

        if (plan.EnergyCharges.Concat(plan.Adjustments).All(c => c.Hourly is null && c.Blocks.All(b => b.PricePerKwh == 0 && b.PriceByPeriod is null)))
        {
            warnings.Add(new("/energyCharges", "No kWh costs anything.", "0"));
        }

        return warnings;
    }

    private static void AddPrices(List<PlanFault> warnings, RatePlan plan)
    {
        var prices = plan.EnergyCharges.Where(c => c.Hourly is null)
            .SelectMany(c => c.Blocks.SelectMany((b, i) => (b.PriceByPeriod?.Values ?? [b.PricePerKwh]).Select(p => (Charge: c, Block: i, Price: p)))).ToArray();
        var sorted = prices.Select(p => Math.Abs(p.Price)).Where(p => p > 0).Order().ToArray();
        if (sorted.Length == 0)
        {
            return;
        }

        var middle = sorted[sorted.Length / 2];
        foreach (var (charge, block, price) in prices)
        {
            var path = $"{charge.Place?.Path ?? "/energyCharges"}/{(charge.HasBlocks || charge.HasPricesByPeriod ? $"blocks/{block}/" : "")}pricePerKwh";
            if (price > middle * Many || (price > 0 && price < middle / Many))
            {
                warnings.Add(new(path, $"A price more than {Many} times or less than a {Many}th of the plan's middle price is rare: is the decimal point right?", $"{price} beside {middle}"));
            }
            else if (price < 0)
            {
                warnings.Add(new(path, "An energy charge below zero is rare: is it an adjustment or a credit?", $"{price}"));
            }
        }

        if (middle > 2 && IsDollarLike(plan.Currency))
        {
            warnings.Add(new("/energyCharges", $"Prices are in {plan.Currency} for each kWh: these look like cents.", $"{middle}"));
        }
        else if (middle < FewPerCent)
        {
            warnings.Add(new("/energyCharges", $"Prices are in {plan.Currency} for each kWh: these look like prices for each Wh.", $"{middle}"));
        }
    }

    private static bool IsDollarLike(string currency) => currency is "USD" or "CAD" or "AUD" or "NZD" or "EUR" or "GBP" or "CHF";
}
