using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year.Nights;

/// <summary>Charges that a price per kWh does not say, night by night: use so far is known, the house's load ahead is its recent mean.</summary>
/// <remarks>
/// A peak counts as it was expected, the house at its mean: what the house takes above it comes on top once, and is no leave to charge more. A new peak is paid
/// for the whole billing period: a night that sees a part of what is left of it counts the root of that part of its price, between a peak that every night will
/// use and one that only this one does (our choice, no source).
/// </remarks>
internal sealed partial class CoupledNights
{
    private readonly CoupledCharges charges;
    private readonly ChargingProblem year;
    private readonly int[] meterOf;
    private readonly double[] blockUse;
    private readonly double[] peakKw;
    private readonly int[] passedWindows;
    private readonly double[] houseKw;
    private readonly int perDay;
    private readonly int houseDays;
    private LevelSearch? searched;

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

        blockUse = [.. charges.Blocks.Select(b => b.UsedKwh)];
        peakKw = [.. charges.Peaks.Select(p => p.FloorKw)];
        passedWindows = new int[charges.Peaks.Count];
        spent = new double[charges.Periods];
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
                    prices[at] += year.Place[night.Starts[at]] == Place.Home ? span.Share * added : 0;
                }
            }
        }
    }

    /// <summary>Plans a night under levels of power: each between what is billed or expected anyway and the peak of a plan without it, the dearest first.</summary>
    public CoupledPlan Plan(NightForecast night, ChargingProblem problem, ShortfallOrder order)
    {
        var search = searched = new LevelSearch(this, night, problem, order);
        var best = search.Best;
        foreach (var k in Enumerable.Range(0, peakKw.Length).Where(search.IsOpen).OrderByDescending(k => search.Price[k]))
        {
            best = search.Along(k);
        }

        return CoupledProblem.WithWholeShares(best) with { Most = search.Kept() };
    }

    /// <summary>Counts what a night has really taken.</summary>
    public void Passed(NightForecast night, double[] wallKwh)
    {
        var (from, until) = (meterOf[night.First], night.Until < year.Count ? meterOf[night.Until] : houseKw.Length);
        for (var b = 0; b < blockUse.Length; b++)
        {
            foreach (var span in charges.Blocks[b].Spans.SkipWhile(s => s.Until <= from).TakeWhile(s => s.From < until))
            {
                for (var i = night.First; i < night.Until; i++)
                {
                    blockUse[b] += year.Place[i] == Place.Home && meterOf[i] >= span.From && meterOf[i] < span.Until ? span.Share * wallKwh[i] : 0;
                }
            }
        }

        Spend(night, wallKwh);
        for (var k = 0; k < peakKw.Length; k++)
        {
            foreach (var i in searched!.Windows[k])
            {
                var at = night.Starts[i];
                if (at < night.Until)
                {
                    peakKw[k] = Math.Max(peakKw[k], searched.House[i] + (wallKwh[at] / year.Hours[at]));
                }
            }

            var windows = charges.Peaks[k].Windows;
            while (passedWindows[k] < windows.Length && windows[passedWindows[k]].Until <= until)
            {
                passedWindows[k]++;
            }
        }
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
