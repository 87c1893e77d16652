using NodaTime;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>Net metering: exported energy is taken off imported energy of the same billing period, and what is left is banked.</summary>
internal sealed class NetMeteringBank
{
    private readonly PlanLayout layout;
    private readonly ExportRule rule;
    private readonly long[] bank;
    private readonly string[] groups;

    public NetMeteringBank(PlanLayout layout, ExportRule rule, BillState state)
    {
        (this.layout, this.rule) = (layout, rule);
        groups = rule.BankByPeriod ? [.. layout.Plan.Calendar.Periods] : [""];
        bank = [.. groups.Select(g => state.BankMicroKwh.GetValueOrDefault(g))];
    }

    /// <summary>What the bank holds. [1e-6 kWh]</summary>
    public IReadOnlyDictionary<string, long> Held => groups.Zip(bank).Where(g => g.Second != 0).ToDictionary(g => g.First, g => g.Second);

    /// <summary>Takes the credit of each billing period off its import, in order of time.</summary>
    /// <param name="periods">The billing periods, in order.</param>
    /// <param name="import">Import.</param>
    /// <param name="export">Export.</param>
    /// <param name="paidOut">Banked energy that each billing period pays out. [1e-6 kWh]</param>
    /// <param name="reached">How each billing period ended, by group.</param>
    /// <returns>What is left of the import.</returns>
    public MeteredSeries Reduce(
        IReadOnlyList<BillingPeriod> periods, MeteredSeries import, MeteredSeries export, out long[] paidOut, out NetMeteringReach[][] reached)
    {
        var groupOf = GroupOfIntervals(import);
        var left = import.MicroKilowattHours.ToArray();
        paidOut = new long[periods.Count];
        reached = new NetMeteringReach[periods.Count][];
        long start = import.Start.ToUnixTimeSeconds(), length = (long)import.Interval.TotalSeconds;
        for (int p = 0, i = 0; p < periods.Count; p++)
        {
            var (first, end) = (i, periods[p].End.ToUnixTimeSeconds());
            for (; i < import.Count && start + (i * length) < end; i++)
            {
                bank[groupOf[i]] += export.MicroKilowattHours[i];
            }

            reached[p] = [.. groups.Select(_ => new NetMeteringReach())];
            for (var k = first; k < i; k++)
            {
                var group = groupOf[k];
                var taken = Math.Min(bank[group], left[k]);
                bank[group] -= taken;
                left[k] -= taken;
                if (left[k] > 0 && reached[p][group].FirstBilled < 0)
                {
                    reached[p][group] = reached[p][group] with { FirstBilled = k };
                }
            }

            for (var g = 0; g < groups.Length; g++)
            {
                reached[p][g] = reached[p][g] with { LeftInBank = bank[g] };
            }

            if (Settlement.IsIn(layout.Plan, periods[p], rule.SettlementMonth))
            {
                paidOut[p] = bank.Sum();
                Array.Clear(bank);
            }
        }

        return import.With(left);
    }

    private int[] GroupOfIntervals(MeteredSeries series)
    {
        var groupOf = new int[series.Count];
        if (!rule.BankByPeriod)
        {
            return groupOf;
        }

        long start = series.Start.ToUnixTimeSeconds(), length = (long)series.Interval.TotalSeconds;
        var i = 0;
        foreach (var span in layout.Main.Walk.Spans(series.Start, series.End))
        {
            for (; i < groupOf.Length && start + (i * length) < span.EndSecond; i++)
            {
                groupOf[i] = span.Period;
            }
        }

        return groupOf;
    }
}

/// <summary>How a billing period ended for one group of net metering.</summary>
/// <param name="FirstBilled">Index of the first interval of which import was left; -1 where there is none.</param>
/// <param name="LeftInBank">Energy left in the bank. [1e-6 kWh]</param>
internal readonly record struct NetMeteringReach(int FirstBilled = -1, long LeftInBank = 0)
{
    public NetMeteringReach()
        : this(-1)
    {
    }
}
