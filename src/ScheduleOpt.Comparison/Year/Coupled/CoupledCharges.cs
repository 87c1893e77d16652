using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>What of a rate plan's year a price per kWh does not say, laid on metering intervals. It depends on no set-up: all share it.</summary>
internal sealed class CoupledCharges
{
    private CoupledCharges(MeteredSeries beside, Interval[] periods)
    {
        Beside = beside;
        PeriodOf = new int[beside.Count];
        for (var p = 0; p < periods.Length; p++)
        {
            var until = periods[p].HasEnd ? MeterSpan.IndexOf(periods[p].End, beside) : beside.Count;
            for (var m = MeterSpan.IndexOf(periods[p].Start, beside); m < until; m++)
            {
                PeriodOf[m] = p;
            }
        }

        SlackOf = new double[Math.Max(1, periods.Length)];
    }

    /// <summary>What is on the meter without the car.</summary>
    public MeteredSeries Beside { get; }

    /// <summary>The billing period of each metering interval.</summary>
    public int[] PeriodOf { get; }

    /// <summary>Prices by block that can make a difference.</summary>
    public List<BlockCharge> Blocks { get; } = [];

    /// <summary>Charges for power.</summary>
    public List<PeakCharge> Peaks { get; } = [];

    /// <summary>By billing period, how much more may be billed before a minimum bill ceases to bind. [currency]</summary>
    public double[] SlackOf { get; }

    /// <summary>Number of billing periods.</summary>
    public int Periods => SlackOf.Length;

    /// <summary>Whether more of nothing gets cheaper.</summary>
    public bool IsConvex { get; private init; }

    /// <summary>Whether a lower bound can be given: all that is not convex is blocks, and their lower hull is known.</summary>
    public bool HasBound { get; private init; }

    /// <summary>Whether prices per kWh say all that charging can change.</summary>
    public bool IsEmpty => Blocks.Count == 0 && Peaks.Count == 0 && SlackOf.All(s => s == 0);

    /// <summary>The charges of a year.</summary>
    public static CoupledCharges Of(RatePlan plan, PriceSchedule prices, MeteredSeries beside)
    {
        Interval[] periods = [.. prices.Terms.Select(t => t.BillingPeriod).Distinct().OrderBy(p => p.Start)];
        // Prices of their own for each period make a block's price depend on when it is filled.
        EnergyCharge[] byPeriod = [.. plan.EnergyCharges.Where(c => c.Blocks.Any(b => b.PriceByPeriod is not null))];
        var charges = new CoupledCharges(beside, periods)
        {
            IsConvex = prices.Terms.All(t => t.IsConvex || IsFlat(t)),
            HasBound = prices.Terms.All(t => t.IsConvex || IsFlat(t) || (t is BlockTerm && byPeriod.All(c => c.Name != t.Name))),
        };
        foreach (var term in prices.Terms)
        {
            var period = Array.IndexOf(periods, term.BillingPeriod);
            switch (term)
            {
                case BlockTerm blocks when BlockCharge.Of(blocks, period, MeterSpan.Of(blocks.Hours, beside)) is { } charge:
                    charges.Blocks.Add(charge);
                    break;
                case DemandTerm demand when PeakCharge.Of(demand, period, beside) is { } charge:
                    charges.Peaks.Add(charge);
                    break;
                case MinimumTerm { Binds: true } minimum:
                    charges.SlackOf[period] += (double)(minimum.Minimum - minimum.Counted);
                    break;
                default:
                    break;
            }
        }

        return charges;
    }

    private static bool IsFlat(PriceTerm term) => term is BlockTerm { WholeUse: false } blocks && blocks.Blocks.All(b => b.PricePerKwh == blocks.Blocks[0].PricePerKwh);
}
