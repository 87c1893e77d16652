using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>Prices under net metering: exported energy has paid for the first imports, so one more kWh there is billed where the credit ends.</summary>
internal static class NetMeteringPrices
{
    /// <summary>Prices with the credit taken into account.</summary>
    /// <param name="layout">The plan's layout.</param>
    /// <param name="use">The billing period.</param>
    /// <param name="own">Prices without it, over the whole billing period.</param>
    /// <param name="reached">How the billing period ended, by group.</param>
    public static IEnumerable<PriceSpan> Of(PlanLayout layout, PeriodUse use, PriceSpan[] own, NetMeteringReach[] reached)
    {
        var rule = layout.Plan.Export!;
        var series = use.Billed!.Import;
        for (var i = 0; i < own.Length; i++)
        {
            var group = rule.BankByPeriod ? layout.Plan.Calendar.Periods.ToList().IndexOf(own[i].Period) : 0;
            var reach = reached[group];
            if (reach.LeftInBank > 0)
            {
                // It only makes the bank smaller.
                var worth = Settlement.IsIn(layout.Plan, use.Period, rule.SettlementMonth) ? rule.PayOutPerKwh : 0;
                yield return own[i] with { ImportPerKwh = worth, ExportPerKwh = worth };
                continue;
            }

            if (reach.FirstBilled < 0)
            {
                yield return own[i] with { ExportPerKwh = 0 };
                continue;
            }

            // Before the credit ends more use ends it earlier; after that it is billed where it is. More export ends it later.
            var ends = series.Start + (series.Interval * reach.FirstBilled);
            var there = own.Last(s => s.Start <= ends).ImportPerKwh;
            var next = i + 1 < own.Length ? own[i + 1].Start : use.Period.End;
            if (own[i].Start < ends)
            {
                yield return own[i] with { ImportPerKwh = there, ExportPerKwh = there };
            }

            if (next > ends)
            {
                yield return own[i] with { Start = Instant.Max(own[i].Start, ends), ExportPerKwh = there };
            }
        }
    }

    /// <summary>Where the credit is used up, or would be.</summary>
    public static IEnumerable<PriceEdge> Edges(PlanLayout layout, PeriodUse use, NetMeteringReach[] reached)
    {
        for (var g = 0; g < reached.Length; g++)
        {
            var name = layout.Plan.Export!.BankByPeriod ? $"Export, {layout.Plan.Calendar.Periods[g]}" : "Export";
            var (k, bank) = (reached[g].FirstBilled, reached[g].LeftInBank);
            decimal? more = bank > 0 ? PeriodUse.Kwh(bank) : k >= 0 ? PeriodUse.Kwh(use.Billed!.Metered.MicroKilowattHours[k] - use.Billed.Import.MicroKilowattHours[k]) : 0;
            decimal? less = bank > 0 ? null : k >= 0 ? PeriodUse.Kwh(use.Billed!.Import.MicroKilowattHours[k]) : 0;
            yield return new(EdgeKind.ZeroNetFlow, name, use.Period.Start, more, less, "kWh", false);
        }
    }
}
