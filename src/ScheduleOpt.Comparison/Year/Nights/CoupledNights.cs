using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Comparison.Year.Nights;

/// <summary>Charges that a price per kWh does not say, night by night: use and peaks so far are known, the house's load ahead is its recent mean.</summary>
/// <remarks>A new peak is paid for the whole billing period: a night that sees only a part of what is left of it counts that part of its price. A minimum bill
/// is not looked at.</remarks>
internal sealed class CoupledNights
{
    private const int Searches = 7;
    private const double SameKw = 0.01;
    private const double SameKwh = 1e-6;
    private static readonly double Golden = (Math.Sqrt(5) - 1) / 2;

    private readonly CoupledCharges charges;
    private readonly ChargingProblem year;
    private readonly int[] meterOf;
    private readonly double[] car;
    private readonly double[] blockUse;
    private readonly double[] peakKw;
    private readonly int[] passedWindows;
    private readonly double[] houseKw;
    private readonly int perDay;
    private readonly int houseDays;

    /// <param name="plan">The rate plan.</param>
    /// <param name="year">The year at its prices.</param>
    /// <param name="span">The year's metering intervals.</param>
    /// <param name="houseDays">Days behind an expected house load. [d]</param>
    public CoupledNights(PlanYear plan, ChargingProblem year, YearSpan span, int houseDays)
    {
        (charges, this.year, this.houseDays) = (plan.Coupled, year, houseDays);
        meterOf = new int[year.Count];
        for (var i = 0; i < meterOf.Length; i++)
        {
            meterOf[i] = (int)Math.Min(span.Count - 1, (year.Boundaries[i] - span.Start).BclCompatibleTicks / span.Step.BclCompatibleTicks);
        }

        car = new double[span.Count];
        blockUse = [.. charges.Blocks.Select(b => b.UsedKwh)];
        peakKw = [.. charges.Peaks.Select(p => p.FloorKw)];
        passedWindows = new int[charges.Peaks.Count];
        houseKw = CoupledYear.HouseKw(charges.Beside);
        perDay = (int)Math.Round(NodaTime.Duration.FromDays(1) / span.Step);
    }

    /// <summary>Whether a charge for power is there.</summary>
    public bool HasPeaks => charges.Peaks.Count > 0;

    /// <summary>Adds what the block reached so far costs more than the prices say.</summary>
    public void AddBlocks(NightForecast night, double[] prices)
    {
        for (var b = 0; b < blockUse.Length; b++)
        {
            var added = charges.Blocks[b].SlopeAbove(blockUse[b]);
            if (added == 0)
            {
                continue;
            }

            var at = 0;
            foreach (var span in charges.Blocks[b].Spans)
            {
                while (at < prices.Length && meterOf[night.Starts[at]] < span.From)
                {
                    at++;
                }

                for (; at < prices.Length && meterOf[night.Starts[at]] < span.Until; at++)
                {
                    prices[at] += year.Place[night.Starts[at]] == Place.Home ? added : 0;
                }
            }
        }
    }

    /// <summary>Plans a night under levels of power: between what is billed or expected anyway and the peak of a plan without levels, all by one share.</summary>
    public CoupledPlan Plan(NightForecast night, ChargingProblem problem, ShortfallOrder order)
    {
        var free = Scheduler.Solve(problem, SolverChoice.Direct, order);
        var house = ExpectedHouse(night);
        var (low, high, price, windows) = (new double[peakKw.Length], new double[peakKw.Length], new double[peakKw.Length], Windows(night));
        var isOpen = false;
        for (var k = 0; k < low.Length; k++)
        {
            if (windows[k] is not { Length: > 0 } hours)
            {
                continue;
            }

            low[k] = Math.Max(peakKw[k], hours.Max(i => house[i]));
            high[k] = Math.Max(low[k], hours.Max(i => house[i] + (free.Shares[i] * problem.WallKw[i])));
            price[k] = charges.Peaks[k].PriceAt(low[k]) * ShareOfPeriod(night, charges.Peaks[k].Period);
            isOpen |= high[k] > low[k] + SameKw;
        }

        var plain = new CoupledPlan(free, null, free.Objective) { Solved = problem };
        if (!isOpen)
        {
            return plain;
        }

        // Golden section: cost is convex in the share, and what is left short comes before it.
        var (a, b) = (0.0, 1.0);
        var (left, right) = (Under(1 - Golden), Under(Golden));
        var best = Better(Under(0), Better(left, right));
        for (var search = 0; search < Searches; search++)
        {
            if (Better(left, right) == left)
            {
                (b, right) = (a + (Golden * (b - a)), left);
                left = Under(b - (Golden * (b - a)));
                best = Better(best, left);
            }
            else
            {
                (a, left) = (b - (Golden * (b - a)), right);
                right = Under(a + (Golden * (b - a)));
                best = Better(best, right);
            }
        }

        var whole = plain with { Cost = free.Objective + low.Select((_, k) => price[k] * (high[k] - low[k])).Sum() };
        return CoupledProblem.WithWholeShares(Better(best, whole));

        CoupledPlan Under(double share)
        {
            var most = new double[problem.Count];
            Array.Fill(most, 1);
            var cost = 0.0;
            for (var k = 0; k < low.Length; k++)
            {
                var level = low[k] + (share * (high[k] - low[k]));
                cost += price[k] * (level - low[k]);
                foreach (var i in windows[k])
                {
                    most[i] = Math.Min(most[i], problem.WallKw[i] > 0 ? Math.Clamp((level - house[i]) / problem.WallKw[i], 0, 1) : 1);
                }
            }

            var held = problem with { WallKw = Times(problem.WallKw, most), NetKw = Times(problem.NetKw, most) };
            var least = Scheduler.Solve(held, SolverChoice.Direct, order);
            return new CoupledPlan(least, most, least.Objective + cost) { Solved = held };
        }
    }

    /// <summary>Counts what a night has really taken.</summary>
    public void Passed(NightForecast night, double[] wallKwh)
    {
        for (var i = night.First; i < night.Until; i++)
        {
            if (year.Place[i] == Place.Home)
            {
                car[meterOf[i]] += wallKwh[i];
            }
        }

        var (from, until) = (meterOf[night.First], night.Until < year.Count ? meterOf[night.Until] : car.Length);
        for (var b = 0; b < blockUse.Length; b++)
        {
            foreach (var span in charges.Blocks[b].Spans.SkipWhile(s => s.Until <= from).TakeWhile(s => s.From < until))
            {
                for (var i = night.First; i < night.Until; i++)
                {
                    blockUse[b] += year.Place[i] == Place.Home && meterOf[i] >= span.From && meterOf[i] < span.Until ? wallKwh[i] : 0;
                }
            }
        }

        for (var k = 0; k < peakKw.Length; k++)
        {
            var (windows, w) = (charges.Peaks[k].Windows, passedWindows[k]);
            for (; w < windows.Length && windows[w].Until <= until; w++)
            {
                var sum = 0.0;
                for (var m = windows[w].From; m < windows[w].Until; m++)
                {
                    sum += car[m];
                }

                peakKw[k] = Math.Max(peakKw[k], windows[w].HouseKw + (sum / charges.Peaks[k].Hours));
            }

            passedWindows[k] = w;
        }
    }

    private static CoupledPlan Better(CoupledPlan a, CoupledPlan b)
    {
        var (shortA, shortB) = (Short(a.Best), Short(b.Best));
        return Math.Abs(shortA - shortB) > SameKwh ? (shortA < shortB ? a : b) : a.Cost <= b.Cost ? a : b;

        static double Short(LeastCost best) => best.TripShortfallKwh.Sum() + best.TargetShortfallKwh.Sum() + best.FinalShortfallKwh;
    }

    private static double[] Times(double[] values, double[] shares)
    {
        var times = new double[values.Length];
        for (var i = 0; i < times.Length; i++)
        {
            times[i] = values[i] * shares[i];
        }

        return times;
    }

    /// <summary>The share of what is left of a billing period that a night sees, in [0, 1].</summary>
    private double ShareOfPeriod(NightForecast night, int period)
    {
        var first = meterOf[night.First];
        var seen = meterOf[Math.Min(year.Count - 1, night.Starts[^1])] - first;
        var end = Array.FindLastIndex(charges.PeriodOf, p => p == period) + 1;
        var start = Array.IndexOf(charges.PeriodOf, period);
        return Math.Clamp((double)Math.Min(end, first + seen) - Math.Max(start, first), 1, end) / Math.Max(1, end - Math.Max(start, first));
    }

    /// <summary>For each charge for power the intervals of a night in its hours.</summary>
    private int[][] Windows(NightForecast night)
    {
        var windows = new int[peakKw.Length][];
        for (var k = 0; k < windows.Length; k++)
        {
            var all = charges.Peaks[k].Windows;
            var found = new List<int>();
            var w = passedWindows[k];
            for (var i = 0; i < night.Starts.Length - 1; i++)
            {
                var m = meterOf[night.Starts[i]];
                while (w < all.Length && all[w].Until <= m)
                {
                    w++;
                }

                if (w < all.Length && all[w].From <= m)
                {
                    found.Add(i);
                }
            }

            windows[k] = [.. found];
        }

        return windows;
    }

    /// <summary>Power of the house in each interval of a night: the mean of the same time of the last days. [kW]</summary>
    private double[] ExpectedHouse(NightForecast night)
    {
        var now = meterOf[night.First];
        var expected = new double[night.Starts.Length - 1];
        for (var i = 0; i < expected.Length; i++)
        {
            var m = meterOf[night.Starts[i]];
            var (sum, count) = (0.0, 0);
            for (var d = ((m - now) / perDay) + 1; count < houseDays && m - (d * perDay) >= 0; d++)
            {
                sum += houseKw[m - (d * perDay)];
                count++;
            }

            expected[i] = count > 0 ? sum / count : houseKw[m];
        }

        return expected;
    }
}
