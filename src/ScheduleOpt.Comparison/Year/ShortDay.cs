using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year;

/// <summary>A day on which a set-up left the household short.</summary>
/// <param name="Date">The day of the departure, by the household's clock.</param>
/// <param name="TripShortfallKwh">What the trips that left on it needed and the battery could not give. [kWh]</param>
public sealed record ShortDay(LocalDate Date, double TripShortfallKwh)
{
    /// <summary>The days with a departure that was not ready, in order.</summary>
    internal static ShortDay[] Of(ChargingProblem problem, ReplayResult replay, DateTimeZone zone) =>
    [
        .. problem.Departures
            .Select((d, k) => (At: problem.Boundaries[d.Boundary], Short: replay.TripShortfallKwh[k]))
            .Where(d => d.Short > Readiness.ToleranceKwh)
            .GroupBy(d => d.At.InZone(zone).Date)
            .Select(g => new ShortDay(g.Key, g.Sum(d => d.Short))),
    ];
}
