using NodaTime;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Cli.Screens;

/// <summary>What a column of the chart stands for.</summary>
/// <param name="Start">Its start, on the clock.</param>
/// <param name="End">Its end.</param>
/// <param name="AtHome">Share of its time at home.</param>
/// <param name="On">Share of its time at home in which the car charges.</param>
/// <param name="Price">Mean price at home. [currency/kWh]</param>
/// <param name="StoredKwh">Stored energy at its start. [kWh]</param>
/// <param name="TemperatureC">Temperature at its start. [degC]</param>
internal sealed record ChartColumn(
    Instant Start, Instant End, double AtHome, double On, double Price, double StoredKwh, double TemperatureC)
{
    /// <summary>The columns from the step in which the start lies to the one in which the end lies.</summary>
    public static IEnumerable<ChartColumn> Of(CarAnswer car, Instant start, Instant end, Duration step)
    {
        var steps = (long)Math.Floor((start - NodaConstants.UnixEpoch) / step);
        for (var at = NodaConstants.UnixEpoch + (step * steps); at < end; at += step)
        {
            yield return Of(car.Intervals, at, at + step);
        }
    }

    private static ChartColumn Of(IReadOnlyList<IntervalAnswer> intervals, Instant start, Instant end)
    {
        var (home, on, price, all) = (0.0, 0.0, 0.0, 0.0);
        var at = 0;
        for (var i = 0; i < intervals.Count; i++)
        {
            var interval = intervals[i];
            at = interval.Start <= start ? i : at;
            var hours = (Instant.Min(interval.End, end) - Instant.Max(interval.Start, start)).TotalHours;
            if (hours <= 0)
            {
                continue;
            }

            all += hours;
            if (interval.Place == Place.Home)
            {
                home += hours;
                on += hours * interval.Share;
                price += hours * interval.PricePerKwh;
            }
        }

        var first = intervals[at];
        var into = Math.Clamp((start - first.Start).TotalHours / first.Hours, 0, 1);
        return new ChartColumn(
            start,
            end,
            all > 0 ? home / all : 0,
            home > 0 ? on / home : 0,
            home > 0 ? price / home : 0,
            first.StoredKwhAtStart + (into * (first.StoredKwhAtEnd - first.StoredKwhAtStart)),
            first.TemperatureC);
    }
}
