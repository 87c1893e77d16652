using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <content>The lower bound.</content>
internal sealed partial class CoupledYear
{
    private const double RoundedKw = 1e-6;

    /// <summary>A lower bound by the multipliers that the search has left.</summary>
    private double Bound()
    {
        if (peaks.Length == 0)
        {
            return Bound(_ => []);
        }

        var plan = problem.Solve(Added(), Factors(), Allowed());
        var (least, most) = (MarginalValues.Of(plan.Solved, plan.Best, highest: false), MarginalValues.Of(plan.Solved, plan.Best, highest: true));
        return Bound(k =>
        {
            // At the power that is free, the multipliers need not reach the price; above it they are those of the averages that the level holds.
            var price = PriceBelow(peaks[k]);
            return peaks[k].LevelKw <= peaks[k].Charge.FreeKw + SameKw
                ? PeakBracket.AtMost(Multipliers(k, plan, least), price)
                : peaks[k].Mixed(Multipliers(k, plan, most), price);
        });
    }

    /// <summary>What the last kW of a level costs. [currency/kW]</summary>
    private double PriceBelow(PeakBracket peak) =>
        Factor(peak.Charge.Period) * peak.Charge.PriceAt(Math.Max(peak.Charge.FreeKw, peak.LevelKw - SameKw));

    /// <summary>The lower bound of multipliers (Lagrange): it holds whatever they are.</summary>
    /// <param name="multipliersOf">What each average of a charge for power is worth. [currency/kW]</param>
    private double Bound(Func<int, double[]> multipliersOf)
    {
        double[][] multipliers = [.. peaks.Select((_, k) => multipliersOf(k))];
        if (peaks.All(p => p.Charge.MeanOfDays is null))
        {
            return BoundOf(multipliers);
        }

        // A mean of days is at least what it is without the car; where rounding leaves something of it to hold against, days share its price.
        double[][] spread = [.. multipliers.Select((m, k) => peaks[k].Charge.MeanOfDays is null ? m : DailyPeaks.Spread(peaks[k].Charge, m, PriceBelow(peaks[k])))];
        double[][] without = [.. multipliers.Select((m, k) => peaks[k].Charge.MeanOfDays is null ? m : new double[m.Length])];
        return Math.Max(BoundOf(spread), BoundOf(without));
    }

    private double BoundOf(double[][] multipliers)
    {
        var bound = AtFreeKw(multipliers);
        for (var k = 0; k < peaks.Length; k++)
        {
            // The charge's tangent at the power whose next kW costs as much as the multipliers add up to; kW are rounded to a millionth.
            var (charge, sum, factor) = (peaks[k].Charge, multipliers[k].Sum(), Factor(peaks[k].Charge.Period));
            bound += factor <= 0 ? 0 : (factor * LeastAbove(charge, sum / factor)) - (sum * (charge.SurelyFreeKw - charge.FreeKw + RoundedKw));
        }

        for (var u = 0; u < uses.Length; u++)
        {
            bound += Factor(uses[u].Period) * hulls[u].Least(slopes[u].At);
        }

        for (var p = 0; p < charges.Periods; p++)
        {
            bound -= Factor(p) * charges.SlackOf[p];
        }

        return bound;
    }

    /// <summary>The least cost of energy where multipliers are added to its price and every level is the free one. [currency]</summary>
    private double AtFreeKw(double[][] multipliers)
    {
        var (added, constant) = (Added(), 0.0);
        for (var k = 0; k < peaks.Length; k++)
        {
            var charge = peaks[k].Charge;
            var factor = Factor(charge.Period);
            for (var w = 0; factor > 0 && w < multipliers[k].Length; w++)
            {
                var (window, each) = (charge.Windows[w], multipliers[k][w]);
                constant += each * (window.HouseKw - charge.FreeKw);
                for (var m = window.From; m < window.Until; m++)
                {
                    added[m] += each / factor / charge.Hours;
                }
            }
        }

        // Metering rounds each interval to a millionth of a kWh, and the part of it in some hours down to one.
        constant -= added.Sum(Math.Abs) * 1.5 / MeteredSeries.UnitsPerKilowattHour;
        return constant - problem.RaiseToZero(added, Factors()) + problem.Solve(added, Factors(), null).Best.Cost;
    }

    private double LeastAbove(PeakCharge charge, double price)
    {
        // min over kW above the free power of cost less price: at one of the edges, convex or not.
        var (least, mostKw) = (0.0, charge.Windows.Max(w => w.HouseKw) + fullKw);
        foreach (var kw in charge.LeastEdgesKw.Append(mostKw).Where(kw => kw > charge.SurelyFreeKw))
        {
            least = Math.Min(least, charge.LeastCost(kw) - (price * (kw - charge.SurelyFreeKw)));
        }

        return least;
    }
}
