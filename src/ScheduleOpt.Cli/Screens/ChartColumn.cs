using NodaTime;
using ScheduleOpt.Comparison.Tonight;
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
    public static IEnumerable<ChartColumn> Of(NightPlan plan, Instant start, Instant end, Duration step)
    {
        var steps = (long)Math.Floor((start - NodaConstants.UnixEpoch) / step);
        for (var at = NodaConstants.UnixEpoch + (step * steps); at < end; at += step)
        {
            yield return Of(plan, at, at + step);
        }
    }

    private static ChartColumn Of(NightPlan plan, Instant start, Instant end)
    {
        var problem = plan.Problem;
        var (home, on, price, all) = (0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < problem.Count; i++)
        {
            var hours = (Instant.Min(problem.Boundaries[i + 1], end) - Instant.Max(problem.Boundaries[i], start)).TotalHours;
            if (hours <= 0)
            {
                continue;
            }

            all += hours;
            if (problem.Place[i] == Place.Home)
            {
                home += hours;
                on += hours * plan.Shares[i];
                price += hours * problem.Price[i];
            }
        }

        var first = Math.Max(0, Array.FindLastIndex(problem.Boundaries, b => b <= start));
        var interval = Math.Min(first, problem.Count - 1);
        var into = Math.Clamp((start - problem.Boundaries[interval]).TotalHours / problem.Hours[interval], 0, 1);
        return new ChartColumn(
            start,
            end,
            all > 0 ? home / all : 0,
            home > 0 ? on / home : 0,
            home > 0 ? price / home : 0,
            plan.Replay.StoredKwh[interval] + (into * (plan.Replay.StoredKwh[interval + 1] - plan.Replay.StoredKwh[interval])),
            problem.TemperatureC[interval]);
    }
}
