using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year;

/// <summary>How often the car was ready.</summary>
/// <param name="Departures">Departures counted.</param>
/// <param name="Ready">Those without trip shortfall.</param>
/// <param name="OnTarget">Those whose target was met as well.</param>
/// <param name="TripShortfallKwh">Trip shortfall of all of them, battery side. [kWh]</param>
/// <param name="TargetShortfallKwh">Target shortfall of all of them. [kWh]</param>
public sealed record Readiness(int Departures, int Ready, int OnTarget, double TripShortfallKwh, double TargetShortfallKwh)
{
    /// <summary>The shortfall up to which a departure counts as ready. [kWh]</summary>
    public const double ToleranceKwh = 0.01;

    /// <summary>The share of departures without trip shortfall, in [0, 1]; none without departures.</summary>
    public double? Share => Departures == 0 ? null : (double)Ready / Departures;

    /// <summary>The share of departures with the target met, in [0, 1]; none without departures.</summary>
    public double? OnTargetShare => Departures == 0 ? null : (double)OnTarget / Departures;

    /// <summary>Nothing counted: public charging alone has no departures from a plug.</summary>
    public static Readiness NotApplicable { get; } = new(0, 0, 0, 0, 0);

    /// <summary>Whether no fewer departures were ready and on target.</summary>
    internal bool IsNoWorseThan(Readiness other) => Ready >= other.Ready && OnTarget >= other.OnTarget;

    internal static Readiness Of(ChargingProblem problem, ReplayResult replay, Instant from, Instant until)
    {
        var (departures, ready, onTarget, trip, target) = (0, 0, 0, 0.0, 0.0);
        for (var k = 0; k < problem.Departures.Length; k++)
        {
            var at = problem.Boundaries[problem.Departures[k].Boundary];
            if (at < from || at >= until)
            {
                continue;
            }

            departures++;
            ready += replay.TripShortfallKwh[k] <= ToleranceKwh ? 1 : 0;
            onTarget += replay.TargetShortfallKwh[k] <= ToleranceKwh ? 1 : 0;
            trip += replay.TripShortfallKwh[k];
            target += replay.TargetShortfallKwh[k];
        }

        return new Readiness(departures, ready, onTarget, trip, target);
    }
}
