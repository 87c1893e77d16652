using System.Runtime.CompilerServices;
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
    /// <param name="export">Export; none for no export.</param>
    /// <param name="paidOut">Banked energy that each billing period pays out. [1e-6 kWh]</param>
    /// <param name="reached">How each billing period ended, by group.</param>
    /// <returns>What is left of the import.</returns>
    public MeteredSeries Reduce(
        IReadOnlyList<BillingPeriod> periods, MeteredSeries import, MeteredSeries? export, out long[] paidOut, out NetMeteringReach[][] reached)
    {
        var groupOf = GroupOfIntervals(import);
        // Without credit nothing is taken off.
        var left = export is null && Array.TrueForAll(bank, b => b == 0) ? null : import.MicroKilowattHours.ToArray();
        paidOut = new long[periods.Count];
        reached = new NetMeteringReach[periods.Count][];
        long start = import.StartSecond, length = import.IntervalSeconds;
        for (int p = 0, first = 0; p < periods.Count; p++)
        {
            var end = (int)Math.Clamp((periods[p].End.ToUnixTimeSeconds() - start + length - 1) / length, first, import.Count);
            if (export is not null)
            {
                Earn(export, groupOf, first, end);
            }

            reached[p] = Spend(import.MicroKilowattHours, left, groupOf, first, end);
            first = end;

            if (Settlement.IsIn(layout.Plan, periods[p], rule.SettlementMonth))
            {
                paidOut[p] = bank.Sum();
                Array.Clear(bank);
            }
        }

        return left is null ? import : import.With(left);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Earn(MeteredSeries export, int[]? groupOf, int first, int end)
    {
        var energies = export.MicroKilowattHours;
        for (var i = first; i < end; i++)
        {
            bank[groupOf is null ? 0 : groupOf[i]] += energies[i];
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private NetMeteringReach[] Spend(ReadOnlySpan<long> used, long[]? left, int[]? groupOf, int first, int end)
    {
        var firstBilled = new int[bank.Length];
        Array.Fill(firstBilled, -1);
        for (var i = first; i < end; i++)
        {
            var group = groupOf is null ? 0 : groupOf[i];
            var taken = Math.Min(bank[group], used[i]);
            if (taken < used[i] && firstBilled[group] < 0)
            {
                firstBilled[group] = i;
            }

            if (taken > 0)
            {
                bank[group] -= taken;
                left![i] -= taken;
            }
        }

        return [.. firstBilled.Zip(bank, (billed, held) => new NetMeteringReach(billed, held))];
    }

    // None where all intervals share one bank.
    private int[]? GroupOfIntervals(MeteredSeries series)
    {
        if (!rule.BankByPeriod)
        {
            return null;
        }

        var groupOf = new int[series.Count];
        long start = series.StartSecond, length = series.IntervalSeconds;
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
internal readonly record struct NetMeteringReach(int FirstBilled, long LeftInBank);
