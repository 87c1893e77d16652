namespace ScheduleOpt.Comparison.Year.Coupled;

/// <content>The lower bound.</content>
internal sealed partial class CoupledYear
{
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
        var bound = AtFreeKw(multipliers);
        for (var k = 0; k < peaks.Length; k++)
        {
            // The charge's tangent at the power whose next kW costs as much as the multipliers add up to.
            var factor = Factor(peaks[k].Charge.Period);
            bound += factor <= 0 ? 0 : factor * LeastAbove(peaks[k].Charge, multipliers[k].Sum() / factor, peaks[k].HighestKw);
        }

        for (var b = 0; b < blocks.Length; b++)
        {
            bound += Factor(charges.Blocks[b].Period) * hulls[b].Least(blocks[b].At);
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

        return problem.Solve(added, Factors(), null).Best.Cost + constant;
    }

    private static double LeastAbove(PeakCharge charge, double price, double highestKw)
    {
        // min over kW above the free power of cost less price: at one of the edges, convex or not.
        var least = 0.0;
        foreach (var kw in charge.EdgesKw.Append(highestKw).Where(kw => kw > charge.FreeKw))
        {
            least = Math.Min(least, charge.Cost(kw) - (price * (kw - charge.FreeKw)));
        }

        return least;
    }
}
