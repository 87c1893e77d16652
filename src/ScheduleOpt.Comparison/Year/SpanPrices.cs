using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>Lays the prices of a schedule on the intervals of a year.</summary>
internal static class SpanPrices
{
    /// <summary>Prices as a bill has them: energy is even inside a metering interval, so that its mean price holds; those at stops are kept. None where an interval lies in
    /// two of the meter's.</summary>
    /// <param name="problem">The year.</param>
    /// <param name="means">The mean price of each metering interval. [currency/kWh]</param>
    /// <param name="meter">The metering intervals.</param>
    public static double[]? On(ChargingProblem problem, double[] means, MeteredSeries meter)
    {
        var (start, step) = (meter.Start.ToUnixTimeTicks(), meter.Interval.BclCompatibleTicks);
        var prices = new double[problem.Count];
        var from = problem.Boundaries[0].ToUnixTimeTicks() - start;
        for (var i = 0; i < prices.Length; i++)
        {
            var (m, until) = (from / step, problem.Boundaries[i + 1].ToUnixTimeTicks() - start);
            if (problem.Place[i] == Place.Home && (m >= means.Length || (until - 1) / step != m))
            {
                return null;
            }

            prices[i] = problem.Place[i] == Place.Home ? means[m] : problem.Price[i];
            from = until;
        }

        return prices;
    }

    /// <summary>The mean price of each metering interval. [currency/kWh]</summary>
    public static double[] Means(PriceSchedule schedule, MeteredSeries meter)
    {
        var (start, step) = (meter.Start.ToUnixTimeTicks(), meter.Interval.BclCompatibleTicks);
        var means = new double[meter.Count];
        for (var s = 0; s < schedule.Spans.Count; s++)
        {
            var price = (double)schedule.Spans[s].ImportPerKwh;
            var from = Math.Max(0, schedule.Spans[s].Start.ToUnixTimeTicks() - start);
            var until = Math.Min(step * meter.Count, (s + 1 < schedule.Spans.Count ? schedule.Spans[s + 1].Start : schedule.End).ToUnixTimeTicks() - start);
            for (var m = from / step; from < until; m++)
            {
                var end = Math.Min(until, step * (m + 1));
                means[m] += end - from == step ? price : price * (end - from) / step;
                from = end;
            }
        }

        return means;
    }
}
