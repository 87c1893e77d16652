using NodaTime;
using ScheduleOpt.Tariffs.Billing;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What the first billing period costs with the use metered before the expected use begins: what counts towards a minimum bill.</summary>
/// <remarks>Of that use the amount alone is known. It is spread evenly over the billing period until the expected use begins: exact where the price is one, or was used evenly.</remarks>
internal static class UseSoFar
{
    /// <summary>The unrounded lines; their demand is that of an even use, and means nothing.</summary>
    /// <param name="layout">The plan's layout over the billing periods.</param>
    /// <param name="periods">The billing periods.</param>
    /// <param name="expected">The expected use inside them; none: not known.</param>
    /// <param name="from">When the prices begin.</param>
    /// <param name="kwh">What was metered. [kWh] Above 0.</param>
    public static IReadOnlyList<BillLine> Lines(PlanLayout layout, BillingPeriod[] periods, MeteredSeries? expected, Instant from, decimal kwh)
    {
        var interval = expected?.Interval ?? Duration.FromHours(1);
        var ends = expected?.Start ?? from;
        var before = Math.Max(0, (int)((ends - periods[0].Start) / interval));
        var soFar = (long)(kwh * MeteredSeries.UnitsPerKilowattHour);

        // Where nothing lies before, the first interval has it.
        var count = Math.Max(1, before);
        var units = new long[before + Math.Max(expected?.Count ?? 0, 1)];
        for (var i = 0; i < count; i++)
        {
            units[i] = (soFar * (i + 1) / count) - (soFar * i / count);
        }

        for (var i = 0; i < (expected?.Count ?? 0); i++)
        {
            units[before + i] += expected!.MicroKilowattHours[i];
        }

        var series = MeteredSeries.FromUnits(ends - (interval * before), interval, units);
        var export = layout.Input.Export is { } own && expected is not null ? own.Between(expected.Start, expected.End).After(before) : null;
        var both = new PlanLayout(layout.Plan, periods[0].Start, periods[^1].End, layout.Input with { Export = export });
        var use = UseSorter.Sort(both, periods[0], SeriesToBill.Of(both, periods, series).Use);
        return ExpectedStatement.Of(both, use, new(layout.Input.State)).Lines;
    }
}
