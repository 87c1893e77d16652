using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs;

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

    /// <summary>Amounts by the use of a billing period that can make a difference.</summary>
    public List<BandCharge> Bands { get; } = [];

    /// <summary>All that goes by use.</summary>
    public IEnumerable<UseCharge> Uses => Blocks.Concat<UseCharge>(Bands);

    /// <summary>Charges for power.</summary>
    public List<PeakCharge> Peaks { get; } = [];

    /// <summary>By billing period, how much more may be billed before a minimum bill ceases to bind. [currency]</summary>
    public double[] SlackOf { get; }

    /// <summary>Number of billing periods.</summary>
    public int Periods => SlackOf.Length;

    /// <summary>Whether more of nothing gets cheaper.</summary>
    public bool IsConvex { get; private init; }

    /// <summary>Whether prices per kWh say all that charging can change.</summary>
    public bool IsEmpty => Blocks.Count == 0 && Bands.Count == 0 && Peaks.Count == 0 && SlackOf.All(s => s == 0);

    /// <summary>The charges of a year.</summary>
    /// <param name="prices">Prices and terms beside the use without the car.</param>
    /// <param name="beside">That use.</param>
    /// <param name="zone">Where days begin.</param>
    public static CoupledCharges Of(PriceSchedule prices, MeteredSeries beside, DateTimeZone zone)
    {
        Interval[] periods = [.. prices.Terms.Select(t => t.BillingPeriod).Distinct().OrderBy(p => p.Start)];
        var charges = new CoupledCharges(beside, periods) { IsConvex = prices.Terms.All(t => t.IsConvex || IsFlat(t)) };
        foreach (var term in prices.Terms)
        {
            var period = Array.IndexOf(periods, term.BillingPeriod);
            switch (term)
            {
                case BlockTerm blocks when BlockCharge.Of(blocks, period, MeterSpan.Covered(blocks.Hours, beside)) is { } charge:
                    charges.Blocks.Add(charge);
                    break;
                case BandTerm band when BandCharge.Of(band, period, MeterSpan.Of([term.BillingPeriod], beside)) is { } charge:
                    charges.Bands.Add(charge);
                    break;
                case DemandTerm demand when PeakCharge.Of(demand, period, beside, zone) is { } charge:
                    charges.Peaks.Add(charge);
                    break;
                case MinimumTerm { Binds: true } minimum:
                    charges.SlackOf[period] += (double)(minimum.Factor * (minimum.Minimum - minimum.Counted));
                    break;
                default:
                    break;
            }
        }

        return charges;
    }

    // A price by block that is one price all the same.
    private static bool IsFlat(PriceTerm term) => term is BlockTerm { WholeUse: false } blocks && blocks.Blocks.All(b => b.PricePerKwh == blocks.Blocks[0].PricePerKwh);
}
