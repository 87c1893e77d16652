using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>What the meter recorded, made ready for a bill: netted by the plan's export rule.</summary>
/// <param name="Use">The series.</param>
/// <param name="Bank">The bank of net metering after the last billing period; none without net metering.</param>
/// <param name="PaidOut">Banked energy that each billing period pays out; none without net metering. [1e-6 kWh]</param>
/// <param name="Reached">How each billing period ended under net metering, by group; none without it.</param>
internal sealed record SeriesToBill(BilledUse Use, NetMeteringBank? Bank, long[]? PaidOut, NetMeteringReach[][]? Reached)
{
    public static SeriesToBill Of(PlanLayout layout, IReadOnlyList<BillingPeriod> periods, MeteredSeries series)
    {
        if (layout.Plan.Export is not { } rule)
        {
            return new(new(series, series, null), null, null, null);
        }

        var (import, export) = Netting.Net(series, layout.Input.Export, rule.NettingMinutes);
        if (rule.Kind == ExportKind.NetBilling)
        {
            return new(new(import, import, export), null, null, null);
        }

        var bank = new NetMeteringBank(layout, rule, layout.Input.State);
        var left = bank.Reduce(periods, import, export, out var paidOut, out var reached);
        return new(new(left, import, null), bank, paidOut, reached);
    }
}
