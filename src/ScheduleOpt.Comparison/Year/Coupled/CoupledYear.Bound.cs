namespace ScheduleOpt.Comparison.Year.Coupled;

/// <content>The lower bound.</content>
internal sealed partial class CoupledYear
{
    /// <summary>A lower bound by the multipliers that the search has left.</summary>
    private double Bound()
    {
        var plan = problem.Solve(Added(), Factors(), Allowed());
        var (least, most) = peaks.Length == 0
            ? ([], [])
            : (MarginalValues.Of(plan.Solved, plan.Best, highest: false), MarginalValues.Of(plan.Solved, plan.Best, highest: true));
        var added = Added();
        var constant = 0.0;
        for (var k = 0; k < peaks.Length; k++)
        {
            var price = peaks[k].Charge.PriceAt(Math.Max(peaks[k].Charge.FreeKw, peaks[k].LevelKw - SameKw));
            // At the power that is free, the multipliers need not reach the price; above it they are those of the averages that the level holds.
            var multipliers = peaks[k].LevelKw <= peaks[k].Charge.FreeKw + SameKw
                ? PeakBracket.AtMost(Multipliers(k, plan, least), price * Factor(peaks[k].Charge.Period))
                : peaks[k].Mixed(Multipliers(k, plan, most), price * Factor(peaks[k].Charge.Period));
            var factor = Factor(peaks[k].Charge.Period);
            if (factor <= 0)
            {
                continue;
            }

            var charge = peaks[k].Charge;
            var sum = 0.0;
            for (var w = 0; w < multipliers.Length; w++)
            {
                var each = multipliers[w] / factor;
                sum += each;
                constant += factor * each * (charge.Windows[w].HouseKw - charge.FreeKw);
                for (var m = charge.Windows[w].From; m < charge.Windows[w].Until; m++)
                {
                    added[m] += each / charge.Hours;
                }
            }

            // The charge's tangent at the power whose next kW costs as much as the multipliers add up to.
            constant += factor * LeastAbove(charge, sum, peaks[k].HighestKw);
        }

        var mostKwh = problem.Problem.DriveKwh.Sum() + (2 * problem.Problem.UsableKwh);
        for (var b = 0; b < blocks.Length; b++)
        {
            constant += Factor(charges.Blocks[b].Period) * charges.Blocks[b].Least(blocks[b].At, 4 * mostKwh);
        }

        for (var p = 0; p < charges.Periods; p++)
        {
            constant -= Factor(p) * charges.SlackOf[p];
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
