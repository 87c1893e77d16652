using NodaTime;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>What billing periods hand on to each other while a bill is made.</summary>
internal sealed class CarriedState(BillState before)
{
    // The longest ratchet looks two years back.
    private const int MonthsKept = 25, ShareDecimals = 12;
    private readonly List<PastPeak> peaks = [.. before.Peaks];

    public decimal CreditBank { get; set; } = before.CreditBank;

    /// <summary>Billed power of each demand charge that is in a billing period; its measured power is remembered. [kW]</summary>
    public Dictionary<string, decimal> BilledKw(PlanLayout layout, PeriodUse use)
    {
        var measured = new Dictionary<string, decimal>(layout.DemandCharges.Length);
        foreach (var demand in layout.DemandCharges.Where(d => d.Scope.IsIn(use)))
        {
            var kw = demand.Measured(use);
            measured.Add(demand.Charge.Name, kw);
            peaks.Add(new(demand.Charge.Name, use.MonthIndex / 12, (use.MonthIndex % 12) + 1, kw));
        }

        var billed = new Dictionary<string, decimal>(measured.Count);
        foreach (var demand in layout.DemandCharges)
        {
            if (measured.TryGetValue(demand.Charge.Name, out var kw))
            {
                billed.Add(demand.Charge.Name, demand.Billed(kw, Earlier(demand.Charge, use.MonthIndex)));
            }
        }

        return billed;
    }

    /// <summary>The highest power that a ratchet looks at. [kW]</summary>
    public decimal Earlier(DemandCharge charge, int month)
    {
        if (charge.Ratchet is not { } ratchet)
        {
            return 0;
        }

        var of = ratchet.Of ?? charge.Name;
        decimal highest = 0;
        foreach (var peak in peaks)
        {
            var back = month - peak.MonthIndex;
            var counts = ratchet.Months is { } months ? back >= 1 && back <= months : back is >= 0 and <= 11 && ratchet.InMonths.Contains(peak.Month);
            if (counts && peak.Charge == of && peak.Kw > highest)
            {
                highest = peak.Kw;
            }
        }

        return highest;
    }

    /// <summary>The share of a billing period's days on which a percentage holds.</summary>
    public static decimal ShareOfDays(PlanLayout layout, PeriodUse use, Tax tax)
    {
        if (tax.From is null && tax.Until is null)
        {
            return 1;
        }

        var days = UseSorter.DaysOf(layout.Plan.Zone, use.Period).Where(d => tax.CoversDate(d.Date)).Sum(d => d.Share);
        return days == use.TotalDays ? 1 : decimal.Round(days / use.TotalDays, ShareDecimals);
    }

    public BillState After(PlanLayout layout, MeteredSeries metered, NetMeteringBank? bank, BillState was)
    {
        var newest = peaks.Count == 0 ? 0 : peaks.Max(p => p.MonthIndex);
        return new()
        {
            Peaks = [.. peaks.Where(p => newest - p.MonthIndex <= MonthsKept)],
            BankMicroKwh = bank?.Held ?? was.BankMicroKwh,
            CreditBank = CreditBank,
            RecentUse = layout.Plan.Rebates.Count > 0 ? metered.Recent(was.RecentUse, Duration.FromDays(Baselines.DaysBack + 2)) : null,
        };
    }
}
