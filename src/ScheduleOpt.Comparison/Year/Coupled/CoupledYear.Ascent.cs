namespace ScheduleOpt.Comparison.Year.Coupled;

/// <content>The joint search of all levels, where the halving of each on its own left the bound too far below the cost.</content>
internal sealed partial class CoupledYear
{
    private const int AscentRounds = 64;

    // Beside a mean of days the gap does not close, however long it is searched.
    private const int AscentRoundsBesideMeans = 4;
    private const int RoundsBetweenBounds = 4;
    private const int MostIdleRounds = 16;

    // Of its height over the free power, the part that a level moves where its multipliers are off by its whole price.
    private const double FirstReach = 0.1;
    private const double LeastHeightKw = 0.05;

    // A centre moves to levels that save at least this share of what the tangents promise (common practice, no source).
    private const double LeastShareOfPromise = 0.1;

    /// <summary>Brings bound and cost together, up to a gap.</summary>
    /// <remarks>The halving takes months for strangers; a battery that is charged once a week in mild months makes neighbours of them.</remarks>
    private (CoupledPlan Best, double Bound) Ascend(CoupledPlan best, double bound, double fine)
    {
        LevelCost[] costs = [.. peaks.Select(p => new LevelCost(p.Charge, p.HighestKw, Factor(p.Charge.Period)))];
        double[] centre = [.. peaks.Select((p, k) => Math.Clamp(p.LevelKw - p.Charge.FreeKw, 0, costs[k].MostKw))];
        double[] reach = [.. costs.Select((c, k) => FirstReach * Math.Max(LeastHeightKw, centre[k]) / Math.Max(SameCost, c.FirstPrice))];
        var bundle = new LevelBundle(costs);
        var (levels, atCentre, promised, scarcity, idle) = (centre, double.PositiveInfinity, 0.0, 1.0, 0);
        var rounds = charges.Peaks.Exists(p => p.MeanOfDays is not null) ? AscentRoundsBesideMeans : AscentRounds;
        for (var round = 1; round <= rounds && best.Cost - bound > fine; round++)
        {
            var plan = SolvedAt(levels);
            var tooLow = new bool[peaks.Length];
            var isReady = IsAsReady(plan, tooLow);
            scarcity = isReady ? 1 : 4 * scarcity;
            var multipliers = AllMultipliers(plan, tooLow, scarcity);
            bundle.Add(AtFreeKw(multipliers), multipliers);
            if (isReady)
            {
                best = Cheaper(best, Costed(plan));
                var cost = plan.Best.Cost + bundle.CostOf(levels);
                (centre, atCentre) = cost < atCentre - (LeastShareOfPromise * promised) ? (levels, cost) : (centre, atCentre);
            }

            levels = bundle.Next(centre, reach);
            centre = double.IsFinite(atCentre) ? centre : levels;
            promised = Math.Max(0, atCentre - bundle.Cost(levels));
            if (promised < fine / 8)
            {
                // Nothing more near the centre: farther away, a few times.
                reach = [.. reach.Select(r => 2 * r)];
                if (++idle > MostIdleRounds)
                {
                    break;
                }
            }

            if (round % RoundsBetweenBounds == 0)
            {
                bound = Math.Max(bound, Bound(k => PeakBracket.AtMost(bundle.Mixed(k), PriceBelow(peaks[k]))));
            }
        }

        return (best, bound);
    }

    private CoupledPlan SolvedAt(double[] levels)
    {
        for (var k = 0; k < peaks.Length; k++)
        {
            peaks[k].MoveTo(peaks[k].Charge.FreeKw + levels[k]);
        }

        return problem.Solve(Added(), Factors(), Allowed());
    }

    /// <summary>The multipliers of each charge; where levels leave something short, those of values between the least and the scarce ones.</summary>
    /// <param name="plan">The plan under the levels.</param>
    /// <param name="tooLow">The charges whose level leaves something short.</param>
    /// <param name="scarcity">Up to how many times its price the multipliers of one of those may add up to.</param>
    private double[][] AllMultipliers(CoupledPlan plan, bool[] tooLow, double scarcity)
    {
        var values = MarginalValues.Of(plan.Solved, plan.Best, highest: false);
        double[][] low = [.. peaks.Select((_, k) => Multipliers(k, plan, values))];
        if (!tooLow.Contains(true))
        {
            return low;
        }

        // One share for all: what is short in one month may be for want of power in another.
        var scarce = MarginalValues.Of(plan.Solved, plan.Best, highest: true);
        var share = 1.0;
        for (var k = 0; k < peaks.Length; k++)
        {
            if (tooLow[k])
            {
                var (least, most) = (low[k].Sum(), Multipliers(k, plan, scarce).Sum());
                var price = scarcity * Factor(peaks[k].Charge.Period) * peaks[k].Charge.PriceAt(peaks[k].LevelKw);
                share = Math.Min(share, most > least ? Math.Clamp((price - least) / (most - least), 0, 1) : 1);
            }
        }

        double[] between = [.. values.Select((v, i) => v + (share * (scarce[i] - v)))];
        return [.. peaks.Select((_, k) => Multipliers(k, plan, between))];
    }
}
