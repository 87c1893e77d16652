using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Cli.Screens;

/// <summary>A charging window with what it takes and costs.</summary>
/// <param name="Window">When it is.</param>
/// <param name="WallKwh">Energy at the meter. [kWh]</param>
/// <param name="Cost">Its cost. [currency]</param>
internal readonly record struct WindowRow(ChargingWindow Window, double WallKwh, double Cost)
{
    /// <summary>The windows of a plan; an interval's energy belongs to its windows by their time in it.</summary>
    public static IEnumerable<WindowRow> Of(NightPlan plan)
    {
        var problem = plan.Problem;
        foreach (var window in plan.Windows)
        {
            var (energy, cost) = (0.0, 0.0);
            for (var i = 0; i < problem.Count; i++)
            {
                var start = Instant.Max(problem.Boundaries[i], window.Start);
                var end = Instant.Min(problem.Boundaries[i + 1], window.End);
                if (end > start && plan.Replay.OnHours[i] > 0)
                {
                    var part = plan.Replay.WallKwh[i] * Math.Min(1, (end - start).TotalHours / plan.Replay.OnHours[i]);
                    energy += part;
                    cost += part * problem.Price[i];
                }
            }

            yield return new WindowRow(window, energy, cost);
        }
    }
}
