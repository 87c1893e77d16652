using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year;

/// <summary>Readiness of the departures of one day.</summary>
/// <param name="Date">The day, by the household's clock.</param>
/// <param name="MeanC">Its mean temperature. [degC]</param>
/// <param name="Readiness">Of the departures on it; none counted on a day without one.</param>
public sealed record DayReadiness(LocalDate Date, double MeanC, Readiness Readiness)
{
    /// <summary>The days of the coldest week.</summary>
    internal static DayReadiness[] Of(ColdestWeek week, ChargingProblem problem, ReplayResult replay, YearSpan span) =>
    [
        .. week.DayMeansC.Select((mean, d) => new DayReadiness(
            week.First.PlusDays(d),
            mean,
            Readiness.Of(problem, replay, span.Zone.StartOf(week.First.PlusDays(d)), span.Zone.StartOf(week.First.PlusDays(d + 1))))),
    ];
}
