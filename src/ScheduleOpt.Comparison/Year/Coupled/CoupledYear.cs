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
    private const int Rounds = 28;
    private const int Repairs = 6;
    private const double SameKwh = 1e-6;
    private const double SameKw = 1e-3;
    private const double SameCost = 1e-6;
    private const int MixingSteps = 8;

    private readonly CoupledProblem problem;
    private readonly CoupledCharges charges;
    private readonly CoupledPlan free;
    private readonly Bracket[] blocks;
    private readonly Bracket[] minimums;
    private readonly PeakBracket[] peaks;
    private readonly int[] held;
    private readonly double[]? mostKw;
    private readonly double fullKw;
    private double[]? hoursByMeter;

    private CoupledYear(CoupledProblem problem)
    {
        (this.problem, charges) = (problem, problem.Charges);
        free = problem.Solve(null, null, null);
        var car = problem.Metered(free, out _);
        blocks = [.. charges.Blocks.Select(_ => new Bracket(0))];
        minimums = [.. charges.SlackOf.Select(_ => new Bracket(1))];
        peaks = [.. charges.Peaks.Select(p => new PeakBracket(p, PeakOf(p, car), HoursToCharge(p)))];
        held = new int[charges.Beside.Count];
        fullKw = problem.Problem.WallKw.Where((_, i) => problem.Problem.Place[i] == Place.Home).DefaultIfEmpty(0).Max();
        mostKw = peaks.Length == 0 ? null : new double[charges.Beside.Count];
    }

    /// <summary>Solves a year.</summary>
    /// <param name="year">The year at prices per kWh.</param>
    /// <param name="charges">The other charges.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <returns>The schedule at prices alone and the best one found, shares of whole intervals; and a lower bound of the cost with all charges, none where they are
    /// not convex or a price is negative. [currency]</returns>
    public static (CoupledPlan Plain, CoupledPlan Best, double? Bound) Solve(ChargingProblem year, CoupledCharges charges, ShortfallOrder order)
    {
        var problem = new CoupledProblem(year, charges, order);
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
            var plan = problem.Solve(Added(), Factors(), Allowed());
            if (IsAsReady(plan, null))
            {
                best = Cheaper(best, Costed(plan));
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

        for (var repair = 0; ; repair++)
        {
            var last = problem.Solve(Added(), Factors(), Allowed());
            var tooLow = new bool[peaks.Length];
            if (IsAsReady(last, tooLow))
            {
                return Cheaper(best, Costed(last));
            }

            if (repair == Repairs)
            {
                return best;
            }

            // A level that was enough beside another month's higher one may not be beside its own.
            foreach (var peak in peaks.Where((_, k) => tooLow[k]))
            {
                peak.Raise(repair);
            }
        }
    }

    /// <summary>The cheaper of two schedules, or, where blocks of use or a minimum bill have limits, the cheapest mixture: it is one as well, and cost is convex on the
    /// way from one to the other.</summary>
    private CoupledPlan Cheaper(CoupledPlan a, CoupledPlan b)
    {
        var best = a.Cost <= b.Cost ? a : b;
        if (charges.Blocks.Count == 0 && charges.SlackOf.All(s => s == 0))
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

    /// <summary>Halves every bracket; false where none is open.</summary>
    private bool Narrow(CoupledPlan plan)
    {
        var car = problem.Metered(plan, out _);
        var tooLow = new bool[peaks.Length];
        var isReady = IsAsReady(plan, tooLow);
        var values = peaks.Length == 0 ? [] : MarginalValues.Of(plan.Solved, plan.Best, highest: false);
        var highest = isReady || peaks.Length == 0 ? values : MarginalValues.Of(plan.Solved, plan.Best, highest: true);
        var changed = false;
        for (var k = 0; k < peaks.Length; k++)
        {
            var peak = peaks[k];
            if (peak.IsOpen)
            {
                var isTooLow = tooLow[k];
                var price = Factor(peak.Charge.Period) * peak.Charge.PriceAt(peak.LevelKw);
                changed |= peak.Narrow(Multipliers(k, plan, isTooLow ? highest : values), price, isTooLow, SameKw);
            }
            else if (tooLow[k])
            {
                // What was enough beside another level that was higher then.
                changed |= peak.Reopen(Multipliers(k, plan, highest), SameKw);
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

    /// <summary>Whether a schedule leaves nothing short that the free one does not; marks the charges for power that held back what is missing.</summary>
    private bool IsAsReady(CoupledPlan plan, bool[]? marked)
    {
        var (best, asReady) = (plan.Best, true);
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
            if (marked is null)
            {
                break;
            }

            // Of what was held back since the battery was last as full as it may be, the latest: the rest is found too low in its turn.
            for (var i = (k < departures.Length ? departures[k].Boundary : problem.Problem.Count) - 1; i >= 0; i--)
            {
                if (plan.Most is { } most && most[i] < 1 && problem.Problem.NetKw[i] > 0 && held[problem.MeterOf[i]] >= 0)
                {
                    marked[held[problem.MeterOf[i]]] = true;
                    break;
                }

                if (best.StoredKwh[i] >= problem.Problem.UpperKwh[i] - SameKwh)
                {
                    break;
                }
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
    private double[] Multipliers(int peak, CoupledPlan plan, double[] values)
    {
        var windows = peaks[peak].Charge.Windows;
        var windowOf = peaks[peak].WindowOf(charges.Beside.Count);
        var multipliers = new double[windows.Length];
        for (var i = 0; i < problem.Problem.Count; i++)
        {
            var m = problem.MeterOf[i];
            if (problem.Problem.Place[i] == Place.Home && held[m] == peak && windowOf[m] >= 0 && plan.Most![i] < 1 && problem.Problem.NetKw[i] > 0)
            {
                // A little more of the average would go to the latest interval that is not full.
                var isUsed = plan.Best.Shares[i] >= 1 - 1e-9 || plan.Most[i] <= 0;
                var saved = isUsed ? (values[i] * problem.Problem.NetKw[i] / problem.Problem.WallKw[i]) - plan.Solved.Price[i] : 0;
                multipliers[windowOf[m]] = Math.Max(0, saved) * peaks[peak].Charge.Hours;
            }
        }

        return multipliers;
    }

    /// <summary>The power that levels leave the car in each metering interval, and the charge that holds it there; -1 for none. [kW]</summary>
    private double[]? Allowed()
    {
        Array.Fill(held, -1);
        Array.Fill(mostKw ?? [], double.PositiveInfinity);
        for (var k = 0; k < peaks.Length; k++)
        {
            var peak = peaks[k];
            for (var w = 0; w < peak.Charge.Windows.Length; w++)
            {
                var window = peak.Charge.Windows[w];
                if (peak.HoursToCharge[w] <= 0)
                {
                    continue;
                }

                // The latest intervals first: where a limit lets the battery fill late alone, an even share of each would waste what the early ones can't use.
                var leftKwh = Math.Max(0, peak.LevelKw - window.HouseKw) * peak.Charge.Hours;
                var even = leftKwh / peak.HoursToCharge[w];
                for (var m = window.Until - 1; m >= window.From; m--)
                {
                    var kw = peak.Charge.Overlap || hoursByMeter![m] <= 0 ? even : Math.Min(leftKwh / hoursByMeter[m], fullKw);
                    leftKwh -= kw * hoursByMeter![m];
                    if (kw < mostKw![m])
                    {
                        (mostKw[m], held[m]) = (kw, k);
                    }
                }
            }
        }

        return mostKw;
    }

    /// <summary>For each average of a charge the time in it in which the car can charge at home. [h]</summary>
    private double[] HoursToCharge(PeakCharge charge)
    {
        var hours = new double[charge.Windows.Length];
        var byMeter = hoursByMeter ??= ByMeter();
        for (var w = 0; w < hours.Length; w++)
        {
            for (var m = charge.Windows[w].From; m < charge.Windows[w].Until; m++)
            {
                hours[w] += byMeter[m];
            }
        }

        return hours;
    }

    private double[] ByMeter()
    {
        var hours = new double[charges.Beside.Count];
        for (var i = 0; i < problem.Problem.Count; i++)
        {
            hours[problem.MeterOf[i]] += problem.Problem.Place[i] == Place.Home && problem.Problem.NetKw[i] > 0 ? problem.Problem.Hours[i] : 0;
        }

        return hours;
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
