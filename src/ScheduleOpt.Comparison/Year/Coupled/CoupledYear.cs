using ScheduleOpt.Scheduling;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>Least cost with the whole year known where power, blocks of use or a minimum bill cost as well.</summary>
/// <remarks>
/// Cost is convex in the level of power kept in a billing period, and in the price of a block's use: each has its bracket, and one sweep of the year halves all
/// brackets at once, because months hardly know of each other. A level is too low where what it costs to keep, the sum of marginal values over the intervals it
/// holds, is above the price of a kW. The multipliers at both ends of the brackets, mixed so that they add up to that price, give a bound by one sweep more
/// (Lagrange): it holds whatever they are.
/// </remarks>
internal sealed class CoupledYear
{
    private const int Rounds = 14;
    private const double SameKwh = 1e-6;
    private const double SameKw = 1e-3;

    private readonly CoupledProblem problem;
    private readonly CoupledCharges charges;
    private readonly CoupledPlan free;
    private readonly Bracket[] blocks;
    private readonly Bracket[] minimums;
    private readonly PeakBracket[] peaks;

    private CoupledYear(CoupledProblem problem)
    {
        (this.problem, charges) = (problem, problem.Charges);
        free = problem.Solve(null, null, null);
        var car = problem.Metered(free, out _);
        blocks = [.. charges.Blocks.Select(_ => new Bracket(0))];
        minimums = [.. charges.SlackOf.Select(_ => new Bracket(1))];
        peaks = [.. charges.Peaks.Select(p => new PeakBracket(p, PeakOf(p, car)))];
    }

    /// <summary>Solves a year.</summary>
    /// <param name="year">The year at prices per kWh.</param>
    /// <param name="charges">The other charges.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <returns>The schedule at prices alone and the best one found, shares of whole intervals; and a lower bound of the cost with all charges, none where they are
    /// not convex or a price is negative. [currency]</returns>
    public static (CoupledPlan Plain, CoupledPlan Best, double? Bound) Solve(ChargingProblem year, CoupledCharges charges, ShortfallOrder order)
    {
        var problem = new CoupledProblem(year, charges, order, HouseKw(charges.Beside));
        var solved = new CoupledYear(problem);
        var plain = solved.Costed(solved.free);

        // With least totals the bearer of a shortfall is itself a choice, and no bracket may move it.
        var isOpen = order == ShortfallOrder.InTimeOrder || !IsShort(solved.free.Best);
        var best = isOpen ? solved.Search(plain) : plain;
        double? bound = isOpen && charges.IsConvex && year.Price.All(p => p >= 0) ? solved.Bound() : null;
        return (CoupledProblem.WithWholeShares(plain), CoupledProblem.WithWholeShares(best), bound);
    }

    /// <summary>Power beside the car in each metering interval. [kW]</summary>
    public static double[] HouseKw(MeteredSeries series)
    {
        var kw = new double[series.Count];
        var perUnit = 1 / (MeteredSeries.UnitsPerKilowattHour * series.Interval.TotalHours);
        for (var m = 0; m < kw.Length; m++)
        {
            kw[m] = series.MicroKilowattHours[m] * perUnit;
        }

        return kw;
    }

    private static bool IsShort(LeastCost best) => best.TripShortfallKwh.Sum() + best.TargetShortfallKwh.Sum() > SameKwh;

    private CoupledPlan Search(CoupledPlan plain)
    {
        var best = plain;
        for (var round = 0; round < Rounds; round++)
        {
            var plan = problem.Solve(Added(), Factors(), Levels());
            var costed = Costed(plan);
            if (costed.Cost < best.Cost && IsAsReady(plan.Best, null))
            {
                best = costed;
            }

            if (!Narrow(plan))
            {
                break;
            }
        }

        foreach (var peak in peaks)
        {
            peak.KeepHigh();
        }

        var last = Costed(problem.Solve(Added(), Factors(), Levels()));
        return last.Cost < best.Cost && IsAsReady(last.Best, null) ? last : best;
    }

    /// <summary>Halves every bracket; false where none is open.</summary>
    private bool Narrow(CoupledPlan plan)
    {
        var car = problem.Metered(plan, out _);
        var tooLow = new bool[charges.Periods];
        IsAsReady(plan.Best, tooLow);
        var values = peaks.Length == 0 ? [] : MarginalValues.Of(plan.Solved, plan.Best, highest: false);
        var changed = false;
        var held = HeldBy();
        foreach (var (peak, k) in peaks.Select((p, k) => (p, k)))
        {
            var multipliers = peak.IsOpen ? Multipliers(k, held, plan, values) : null;
            if (multipliers is not null)
            {
                var price = Factor(peak.Charge.Period) * peak.Charge.PriceAt(peak.LevelKw);
                changed |= peak.Narrow(multipliers, price, tooLow[peak.Charge.Period], SameKw);
            }
        }

        for (var b = 0; b < blocks.Length; b++)
        {
            var use = charges.Blocks[b].UsedKwh + Sum(charges.Blocks[b].Spans, car);
            changed |= blocks[b].Narrow(charges.Blocks[b].SlopeBelow(use), charges.Blocks[b].SlopeAbove(use));
        }

        var costs = CostByPeriod(plan, car);
        for (var p = 0; p < minimums.Length; p++)
        {
            if (charges.SlackOf[p] > 0)
            {
                changed |= minimums[p].Narrow(costs[p] > charges.SlackOf[p] ? 1 : 0, costs[p] < charges.SlackOf[p] ? 0 : 1);
            }
        }

        return changed;
    }

    /// <summary>Whether a schedule leaves nothing short that the free one does not; marks the billing periods of the stays that are.</summary>
    private bool IsAsReady(LeastCost best, bool[]? marked)
    {
        var asReady = true;
        var departures = problem.Problem.Departures;
        for (var k = 0; k <= departures.Length; k++)
        {
            var more = k < departures.Length
                ? Math.Max(best.TripShortfallKwh[k] - free.Best.TripShortfallKwh[k], best.TargetShortfallKwh[k] - free.Best.TargetShortfallKwh[k])
                : best.FinalShortfallKwh - free.Best.FinalShortfallKwh;
            if (more <= SameKwh)
            {
                continue;
            }

            asReady = false;
            var from = k > 1 ? departures[k - 2].ReturnBoundary : 0;
            var until = k < departures.Length ? departures[k].Boundary : problem.Problem.Count;
            for (var i = from; marked is not null && i < until; i++)
            {
                marked[charges.PeriodOf[problem.MeterOf[i]]] = true;
            }
        }

        return asReady;
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
        foreach (var block in charges.Blocks)
        {
            costs[block.Period] += block.Cost(block.UsedKwh + Sum(block.Spans, car));
        }

        foreach (var peak in charges.Peaks)
        {
            costs[peak.Period] += peak.Cost(PeakOf(peak, car));
        }

        return costs;
    }

    /// <summary>What each average is worth to a charge for power: the marginal values of the intervals that its level holds back. [currency/kW]</summary>
    private double[] Multipliers(int peak, int[] held, CoupledPlan plan, double[] values)
    {
        var windows = peaks[peak].Charge.Windows;
        var windowOf = peaks[peak].WindowOf(charges.Beside.Count);
        var multipliers = new double[windows.Length];
        for (var i = 0; i < problem.Problem.Count; i++)
        {
            var m = problem.MeterOf[i];
            if (problem.Problem.Place[i] == Place.Home && held[m] == peak && windowOf[m] >= 0 && plan.Most![i] < 1 && problem.Problem.NetKw[i] > 0
                && (plan.Best.Shares[i] >= 1 - 1e-9 || plan.Most[i] <= 0))
            {
                var saved = (values[i] * problem.Problem.NetKw[i] / problem.Problem.WallKw[i]) - plan.Solved.Price[i];
                multipliers[windowOf[m]] += Math.Max(0, saved) * problem.Problem.Hours[i];
            }
        }

        return multipliers;
    }

    /// <summary>For each metering interval the charge for power whose level is the lowest there; -1 for none.</summary>
    private int[] HeldBy()
    {
        var held = new int[charges.Beside.Count];
        Array.Fill(held, -1);
        for (var k = 0; k < peaks.Length; k++)
        {
            foreach (var window in peaks[k].Charge.Windows)
            {
                for (var m = window.From; m < window.Until; m++)
                {
                    held[m] = held[m] < 0 || peaks[k].LevelKw < peaks[held[m]].LevelKw ? k : held[m];
                }
            }
        }

        return held;
    }

    private double[] Added()
    {
        var added = new double[charges.Beside.Count];
        for (var b = 0; b < blocks.Length; b++)
        {
            foreach (var span in charges.Blocks[b].Spans)
            {
                for (var m = span.From; m < span.Until; m++)
                {
                    added[m] += blocks[b].At;
                }
            }
        }

        return added;
    }

    private double[]? Factors() => charges.SlackOf.All(s => s == 0) ? null : [.. minimums.Select(m => m.At)];

    private double Factor(int period) => charges.SlackOf[period] > 0 ? minimums[period].At : 1;

    private double[]? Levels()
    {
        if (peaks.Length == 0)
        {
            return null;
        }

        var levels = new double[charges.Beside.Count];
        Array.Fill(levels, double.PositiveInfinity);
        foreach (var peak in peaks)
        {
            foreach (var window in peak.Charge.Windows)
            {
                for (var m = window.From; m < window.Until; m++)
                {
                    levels[m] = Math.Min(levels[m], peak.LevelKw);
                }
            }
        }

        return levels;
    }

    /// <summary>A lower bound by the multipliers that the search has left.</summary>
    private double Bound()
    {
        var plan = problem.Solve(Added(), Factors(), Levels());
        var (held, values) = (HeldBy(), peaks.Length == 0 ? [] : MarginalValues.Of(plan.Solved, plan.Best, highest: true));
        var added = Added();
        var constant = 0.0;
        for (var k = 0; k < peaks.Length; k++)
        {
            var price = peaks[k].Charge.PriceAt(Math.Max(peaks[k].Charge.FreeKw, peaks[k].LevelKw - SameKw));
            var multipliers = peaks[k].Mixed(Multipliers(k, held, plan, values), price * Factor(peaks[k].Charge.Period));
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

        var most = problem.Problem.DriveKwh.Sum() + (2 * problem.Problem.UsableKwh);
        for (var b = 0; b < blocks.Length; b++)
        {
            constant += Factor(charges.Blocks[b].Period) * charges.Blocks[b].Least(blocks[b].At, 4 * most);
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

    private static double Sum(MeterSpan[] spans, double[] car)
    {
        var sum = 0.0;
        foreach (var span in spans)
        {
            for (var m = span.From; m < span.Until; m++)
            {
                sum += car[m];
            }
        }

        return sum;
    }

    private static double PeakOf(PeakCharge charge, double[] car)
    {
        var highest = charge.FreeKw;
        foreach (var window in charge.Windows)
        {
            var sum = 0.0;
            for (var m = window.From; m < window.Until; m++)
            {
                sum += car[m];
            }

            highest = Math.Max(highest, sum == 0 ? 0 : window.HouseKw + (sum / charge.Hours));
        }

        return highest;
    }
}
