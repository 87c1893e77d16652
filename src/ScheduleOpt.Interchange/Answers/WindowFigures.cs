using NodaTime;
using ScheduleOpt.Comparison.Tonight;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>What one charging window takes and costs.</summary>
/// <param name="Start">When charging begins.</param>
/// <param name="End">When it ends.</param>
/// <param name="WallKwh">Energy taken at the meter. [kWh]</param>
/// <param name="Cost">What it costs at the rate plan's prices. [currency]</param>
public readonly record struct WindowFigures(Instant Start, Instant End, double WallKwh, double Cost)
{
    /// <summary>The windows of a plan. An interval's energy is shared among its windows by their time in it.</summary>
    public static IEnumerable<WindowFigures> Of(NightPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return Figures(plan);
    }

    private static IEnumerable<WindowFigures> Figures(NightPlan plan)
    {
        var problem = plan.Problem;
        foreach (var window in plan.Windows)
        {
            var (energy, cost) = (0.0, 0.0);
            var first = Array.BinarySearch(problem.Boundaries, window.Start);
            for (var i = first >= 0 ? first : ~first - 1; i < problem.Count && problem.Boundaries[i] < window.End; i++)
            {
                var (start, end) = (
                    Instant.Max(problem.Boundaries[i], window.Start), Instant.Min(problem.Boundaries[i + 1], window.End));
                var on = plan.Replay.OnHours[i];
                var share = on > 0 ? Math.Min(1, (end - start).TotalHours / on) : 0;
                energy += plan.Replay.WallKwh[i] * share;
                cost += plan.Replay.WallKwh[i] * share * problem.Price[i];
            }

            yield return new(window.Start, window.End, energy, cost);
        }
    }
}
