using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <content>What prices, factors and levels of power make of a problem, and what levels are worth.</content>
internal sealed partial class CoupledYear
{
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
        for (var u = 0; u < uses.Length; u++)
        {
            foreach (var span in uses[u].Spans)
            {
                for (var m = span.From; m < span.Until; m++)
                {
                    added[m] += span.Share * slopes[u].At;
                }
            }
        }

        return added;
    }

    private double[]? Factors() => charges.SlackOf.All(s => s == 0) ? null : [.. minimums.Select(m => m.At)];

    private double Factor(int period) => charges.SlackOf[period] > 0 ? minimums[period].At : 1;
}
