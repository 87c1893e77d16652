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
internal sealed partial class CoupledYear
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
    private readonly UseCharge[] uses;
    private readonly Bracket[] slopes;
    private readonly UseHull[] hulls;
    private readonly Bracket[] minimums;
    private readonly PeakBracket[] peaks;
    private readonly int[] held;
    private readonly double[]? mostKw;
    private readonly double fullKw;
    private double[]? hoursByMeter;

    private CoupledYear(CoupledProblem problem, bool hasMeans)
    {
        (this.problem, charges) = (problem, problem.Charges);
        free = problem.Solve(null, null, null);
        var car = problem.Metered(free, out _);
        uses = [.. charges.Uses];
        slopes = [.. uses.Select(_ => new Bracket(0))];
        hulls = Hulls();
        minimums = [.. charges.SlackOf.Select(_ => new Bracket(1))];
        peaks = [.. charges.Peaks.Where(p => hasMeans || p.MeanOfDays is null).Select(p => new PeakBracket(p, PeakOf(p, car), HoursToCharge(p)))];
        held = new int[charges.Beside.Count];
        fullKw = problem.Problem.WallKw.Where((_, i) => problem.Problem.Place[i] == Place.Home).DefaultIfEmpty(0).Max();
        mostKw = peaks.Length == 0 ? null : new double[charges.Beside.Count];
    }

    /// <summary>Solves a year.</summary>
    /// <param name="year">The year at prices per kWh.</param>
    /// <param name="charges">The other charges.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    /// <param name="fine">The gap between cost and bound at which the search may end. [currency]</param>
    /// <returns>The schedule at prices alone and the best one found, shares of whole intervals; and a lower bound of the cost with all charges, none where with least
    /// totals something is short. [currency]</returns>
    public static (CoupledPlan Plain, CoupledPlan Best, double? Bound) Solve(ChargingProblem year, CoupledCharges charges, ShortfallOrder order, double fine)
    {
        var problem = new CoupledProblem(year, charges, order);
        var (plain, best, bound) = Solved(problem, order, fine, hasMeans: true);
        if (charges.Peaks.Exists(p => p.MeanOfDays is not null))
        {
            // Levels held for a mean of days find a good schedule, but no day is worth what a highest one is: a search that leaves such charges out may bound better.
            var (_, other, otherBound) = Solved(problem, order, fine, hasMeans: false);
            (best, bound) = (other.Cost < best.Cost ? other : best, bound > otherBound ? bound : otherBound);
        }

        return (CoupledProblem.WithWholeShares(plain), CoupledProblem.WithWholeShares(best), bound);
    }

    private static (CoupledPlan Plain, CoupledPlan Best, double? Bound) Solved(CoupledProblem problem, ShortfallOrder order, double fine, bool hasMeans)
    {
        var solved = new CoupledYear(problem, hasMeans);
        var plain = solved.Costed(solved.free);

        // With least totals the bearer of a shortfall is itself a choice, and no bracket may move it.
        var isOpen = order == ShortfallOrder.InTimeOrder || !IsShort(solved.free.Best);
        var best = isOpen ? solved.Search(plain) : plain;
        double? bound = isOpen ? solved.Bound() : null;
        if (bound is { } first && solved.peaks.Length > 0)
        {
            (best, bound) = solved.Ascend(best, first, fine);
        }

        return (plain, best, bound);
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

    private UseHull[] Hulls()
    {
        var ranges = new Dictionary<int, AddedUse>();
        var hulls = new UseHull[uses.Length];
        for (var u = 0; u < uses.Length; u++)
        {
            if (!ranges.TryGetValue(uses[u].Period, out var added))
            {
                ranges[uses[u].Period] = added = new AddedUse(problem, uses[u].Period, free.Best.TripShortfallKwh);
            }

            var (least, most) = added.Of(uses[u]);
            hulls[u] = new UseHull(uses[u], least, most);
        }

        return hulls;
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

        for (var u = 0; u < uses.Length; u++)
        {
            var use = uses[u].UsedKwh + Sum(uses[u].Spans, car);
            changed |= slopes[u].Narrow(hulls[u].SlopeBelow(use), hulls[u].SlopeAbove(use));
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
}
