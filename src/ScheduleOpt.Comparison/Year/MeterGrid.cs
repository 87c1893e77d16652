using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year;

/// <summary>Lays the energy of a problem's intervals on regular metering intervals.</summary>
internal static class MeterGrid
{
    /// <summary>The energy taken at home in each metering interval. [kWh at the meter]</summary>
    /// <remarks>A problem's interval lies within one metering interval as a rule, because the problem is cut at the same steps; one that
    /// does not (a zone whose offset is no multiple of the step) is shared by time; the last part takes what is left.</remarks>
    public static double[] HomeKwh(ChargingProblem problem, double[] wallKwh, YearSpan span)
    {
        var metered = new double[span.Count];
        var step = span.Step.BclCompatibleTicks;
        for (var i = 0; i < problem.Count; i++)
        {
            if (problem.Place[i] != Place.Home || wallKwh[i] <= 0)
            {
                continue;
            }

            var from = Ticks(problem.Boundaries[i], span);
            var until = Ticks(problem.Boundaries[i + 1], span);
            var first = (int)(from / step);
            var last = Math.Min(span.Count - 1, (int)((until - 1) / step));
            var left = wallKwh[i];
            for (var m = first; m < last; m++)
            {
                var part = wallKwh[i] * (Math.Min(until, step * (m + 1)) - Math.Max(from, step * m)) / (until - from);
                metered[m] += part;
                left -= part;
            }

            metered[last] += Math.Max(0, left);
        }

        return metered;
    }

    private static long Ticks(Instant instant, YearSpan span) => (instant - span.Start).BclCompatibleTicks;
}
