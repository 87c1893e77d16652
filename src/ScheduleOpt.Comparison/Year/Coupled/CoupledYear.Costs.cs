using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <content>What schedules cost by the model of the charges.</content>
internal sealed partial class CoupledYear
{
    /// <summary>The cheaper of two schedules, or, where blocks of use or a minimum bill have limits, the cheapest mixture: it is one as well, and cost is convex on the
    /// way from one to the other.</summary>
    private CoupledPlan Cheaper(CoupledPlan a, CoupledPlan b)
    {
        var best = a.Cost <= b.Cost ? a : b;
        if (uses.Length == 0 && charges.SlackOf.All(s => s == 0))
        {
            return best;
        }

        var (from, until) = (0.0, 1.0);
        for (var step = 0; step < MixingSteps; step++)
        {
            var (left, right) = (Mixed(from + ((until - from) / 3)), Mixed(until - ((until - from) / 3)));
            var cheaper = left.Cost <= right.Cost ? left : right;
            best = cheaper.Cost < best.Cost - SameCost ? cheaper : best;
            (from, until) = left.Cost <= right.Cost ? (from, until - ((until - from) / 3)) : (from + ((until - from) / 3), until);
        }

        return best;

        CoupledPlan Mixed(double share)
        {
            var (first, second) = (CoupledProblem.WithWholeShares(a), CoupledProblem.WithWholeShares(b));
            var mixed = first.Best with
            {
                Shares = Mix(first.Best.Shares, second.Best.Shares, share),
                StoredKwh = Mix(first.Best.StoredKwh, second.Best.StoredKwh, share),
            };
            return Costed(new CoupledPlan(mixed, null, 0) { Solved = problem.Problem });
        }

        static double[] Mix(double[] first, double[] second, double share)
        {
            var mixed = new double[first.Length];
            for (var i = 0; i < mixed.Length; i++)
            {
                mixed[i] = first[i] + (share * (second[i] - first[i]));
            }

            return mixed;
        }
    }

    private CoupledPlan Costed(CoupledPlan plan)
    {
        var car = problem.Metered(plan, out var energy);
        var costs = CostByPeriod(plan, car);
        var cost = energy - HomeEnergy(plan).Sum();
        for (var p = 0; p < costs.Length; p++)
        {
            cost += charges.SlackOf[p] > 0 ? Math.Max(0, costs[p] - charges.SlackOf[p]) : costs[p];
        }

        return plan with { Cost = cost };
    }

    private double[] HomeEnergy(CoupledPlan plan)
    {
        var costs = new double[charges.Periods];
        for (var i = 0; i < problem.Problem.Count; i++)
        {
            if (problem.Problem.Place[i] == Place.Home && plan.Best.Shares[i] > 0)
            {
                costs[charges.PeriodOf[problem.MeterOf[i]]] += plan.Best.Shares[i] * plan.Solved.WallKw[i] * problem.Problem.Hours[i] * problem.Problem.Price[i];
            }
        }

        return costs;
    }

    private double[] CostByPeriod(CoupledPlan plan, double[] car)
    {
        var costs = HomeEnergy(plan);
        foreach (var use in uses)
        {
            costs[use.Period] += use.Cost(use.UsedKwh + Sum(use.Spans, car));
        }

        foreach (var peak in charges.Peaks)
        {
            costs[peak.Period] += peak.Cost(peak.MeanOfDays is null ? PeakOf(peak, car) : DailyPeaks.Mean(peak, w => KwIn(peak, w, car)));
        }

        return costs;
    }

    private static double Sum(MeterSpan[] spans, double[] car)
    {
        var sum = 0.0;
        foreach (var span in spans)
        {
            for (var m = span.From; m < span.Until; m++)
            {
                sum += span.Share * car[m];
            }
        }

        return sum;
    }

    private static double PeakOf(PeakCharge charge, double[] car)
    {
        var highest = charge.FreeKw;
        foreach (var window in charge.Windows)
        {
            highest = Math.Max(highest, KwIn(charge, window, car));
        }

        return highest;
    }

    private static double KwIn(PeakCharge charge, PeakWindow window, double[] car)
    {
        var sum = 0.0;
        for (var m = window.From; m < window.Until; m++)
        {
            sum += car[m];
        }

        return window.HouseKw + (sum / charge.Hours);
    }
}
