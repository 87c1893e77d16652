using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>What more import adds to one term of the bill. See <see cref="HouseholdBill"/>.</summary>
internal static class TermBill
{
    /// <summary>The part of a term. [currency]</summary>
    /// <param name="term">The term.</param>
    /// <param name="boundaries">Boundaries of the intervals.</param>
    /// <param name="hours">Their lengths. [h]</param>
    /// <param name="importKw">Import of each. [kW]</param>
    /// <param name="moreKwh">By how much it is more than without charging. [kWh]</param>
    public static double Of(PriceTerm term, Instant[] boundaries, double[] hours, double[] importKw, double[] moreKwh) => term switch
    {
        DemandTerm demand => Demand(demand, Highest(demand, boundaries, hours, importKw)),
        BlockTerm block => Block(block, UseOf(block.Hours, boundaries, moreKwh)),
        BandTerm band => Band(band, UseOf([band.BillingPeriod], boundaries, moreKwh)),
        _ => 0,
    };

    /// <summary>A term after use that no schedule changes.</summary>
    public static PriceTerm After(PriceTerm term, Instant[] boundaries, double[] hours, double[] importKw, double[] moreKwh) => term switch
    {
        DemandTerm demand => demand with { MeasuredKw = Math.Max(demand.MeasuredKw, (decimal)Highest(demand, boundaries, hours, importKw)) },
        BlockTerm block => block with { UsedKwh = block.UsedKwh + (decimal)UseOf(block.Hours, boundaries, moreKwh) },
        BandTerm band => band with { UsedKwh = band.UsedKwh + (decimal)UseOf([band.BillingPeriod], boundaries, moreKwh) },
        _ => term,
    };

    private static double Demand(DemandTerm term, double highestKw)
    {
        var floor = (double)term.FloorKw;
        var measured = (double)term.MeasuredKw;
        return Charge(Math.Max(Math.Max(measured, highestKw), floor)) - Charge(Math.Max(measured, floor));

        double Charge(double kw)
        {
            var (sum, below) = (0.0, 0.0);
            foreach (var block in term.Blocks)
            {
                var upTo = Math.Min(kw, block.UpToKw is { } limit ? (double)limit : double.PositiveInfinity);
                sum += Math.Max(0, upTo - below) * (double)block.PricePerKw;
                below = Math.Max(below, upTo);
            }

            return sum;
        }
    }

    private static double Highest(DemandTerm term, Instant[] boundaries, double[] hours, double[] importKw)
    {
        var highest = 0.0;
        foreach (var window in AveragingWindows.Of(term, boundaries))
        {
            // What of it lies outside the horizon is taken to be like what lies inside.
            var (energy, length) = (0.0, 0.0);
            var found = Array.BinarySearch(boundaries, window.Start);
            for (var i = Math.Max(0, found >= 0 ? found : ~found - 1); i < hours.Length && boundaries[i] < window.End; i++)
            {
                var inside = (Instant.Min(boundaries[i + 1], window.End) - Instant.Max(boundaries[i], window.Start)).TotalHours;
                energy += inside * importKw[i];
                length += inside;
            }

            highest = Math.Max(highest, energy / length);
        }

        return highest;
    }

    private static double Block(BlockTerm term, double use)
    {
        var used = (double)term.UsedKwh;
        var counted = (double)term.Blocks[term.ReachedBlock].PricePerKwh * use;
        if (term.WholeUse)
        {
            return (PriceAt(used + use) * (used + use)) - (PriceAt(used) * used) - counted;
        }

        var (sum, below) = (0.0, 0.0);
        foreach (var block in term.Blocks)
        {
            var upTo = block.WidthKwh is { } width ? below + (double)width : double.PositiveInfinity;
            sum += Math.Max(0, Math.Min(used + use, upTo) - Math.Max(used, below)) * (double)block.PricePerKwh;
            below = upTo;
        }

        return sum - counted;

        double PriceAt(double kwh)
        {
            var edge = 0.0;
            foreach (var block in term.Blocks)
            {
                edge += (double?)block.WidthKwh ?? double.PositiveInfinity;
                if (kwh <= edge)
                {
                    return (double)block.PricePerKwh;
                }
            }

            return (double)term.Blocks[^1].PricePerKwh;
        }
    }

    private static double Band(BandTerm term, double use)
    {
        var used = (double)term.UsedKwh;
        return (Holds(used + use) ? (double)term.Amount : 0) - (Holds(used) ? (double)term.Amount : 0);

        bool Holds(double kwh) => (term.OverKwh is not { } over || kwh > (double)over) && (term.UpToKwh is not { } upTo || kwh <= (double)upTo);
    }

    private static double UseOf(IReadOnlyList<Interval> hours, Instant[] boundaries, double[] moreKwh)
    {
        var sum = 0.0;
        foreach (var span in hours)
        {
            for (var i = 0; i < moreKwh.Length; i++)
            {
                sum += span.Contains(boundaries[i]) ? moreKwh[i] : 0;
            }
        }

        return sum;
    }
}
