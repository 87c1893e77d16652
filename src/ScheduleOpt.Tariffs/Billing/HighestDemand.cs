using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>Finds the highest average power of a billing period.</summary>
internal static class HighestDemand
{
    /// <summary>The highest average over the charge's averaging length among the stretches that begin in its seasons and periods. [kW]</summary>
    public static decimal Of(PlanLayout layout, DemandCharge charge, BillingPeriod period, MeteredSeries series)
    {
        var step = Math.Max(charge.AveragingMinutes * 60L, (long)series.Interval.TotalSeconds);
        long from = Math.Max(period.Start.ToUnixTimeSeconds(), series.Start.ToUnixTimeSeconds());
        long until = Math.Min(period.End.ToUnixTimeSeconds(), series.End.ToUnixTimeSeconds());
        // Averages over several intervals are aligned with the clock; single intervals begin where the series has them begin.
        var aligned = step > (long)series.Interval.TotalSeconds ? 0 : series.Start.ToUnixTimeSeconds() % step;
        long highest = 0;
        foreach (var span in layout.Walk.Spans(period.Start, period.End))
        {
            if (!Counts(layout, charge, span.Season, span.Period))
            {
                continue;
            }

            for (var start = FirstAtOrAfter(Math.Max(span.StartSecond, from), step, aligned); start < span.EndSecond && start + step <= until; start += step)
            {
                highest = Math.Max(highest, UseSorter.Energy(series, start, start + step));
            }
        }

        return highest / (decimal)MeteredSeries.UnitsPerKilowattHour * 3600 / step;
    }

    private static bool Counts(PlanLayout layout, DemandCharge charge, int season, int period) =>
        (charge.Seasons.Count == 0 || charge.Seasons.Contains(layout.Plan.Calendar.Seasons[season].Name))
        && (charge.Periods.Count == 0 || charge.Periods.Contains(layout.Plan.Calendar.Periods[period]));

    private static long FirstAtOrAfter(long second, long step, long aligned)
    {
        var offset = (second - aligned) % step;
        return offset == 0 ? second : second + step - (offset < 0 ? offset + step : offset);
    }
}
