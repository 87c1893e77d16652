using NodaTime;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Comparison.Year;

/// <summary>The seven days, from midnight to midnight by the household's clock, with the lowest mean temperature.</summary>
/// <param name="First">Its first day; the earliest where several weeks are equally cold.</param>
/// <param name="MeanC">Its mean temperature. [degC]</param>
/// <param name="Wording">What it may be called: a typical year has no record cold.</param>
public sealed record ColdestWeek(LocalDate First, double MeanC, string Wording)
{
    /// <summary>Days of a week. [d]</summary>
    internal const int Days = 7;

    /// <summary>Mean temperature of each of its days. [degC]</summary>
    internal double[] DayMeansC { get; private init; } = [];

    internal Instant Start { get; private init; }

    internal Instant End { get; private init; }

    internal static ColdestWeek Of(int year, YearSpan span, TemperatureForecast temperatures, bool isTypical)
    {
        var first = new LocalDate(year, 1, 1);
        var days = Period.DaysBetween(first, new LocalDate(year + 1, 1, 1));
        var sums = new double[days];
        var halfHours = new int[days];
        for (var d = 0; d < days; d++)
        {
            // Half hours, because some zones change their clocks by half an hour.
            var until = span.Zone.StartOf(first.PlusDays(d + 1));
            for (var at = span.Zone.StartOf(first.PlusDays(d)); at < until; at += Duration.FromMinutes(30))
            {
                sums[d] += temperatures.At(at);
                halfHours[d]++;
            }
        }

        var best = 0;
        var mean = double.PositiveInfinity;
        for (var d = 0; d + Days <= days; d++)
        {
            var candidate = sums.AsSpan(d, Days).ToArray().Sum() / halfHours.AsSpan(d, Days).ToArray().Sum();
            if (candidate < mean)
            {
                (best, mean) = (d, candidate);
            }
        }

        var start = first.PlusDays(best);
        return new ColdestWeek(start, mean, isTypical ? "coldest week of a typical year" : "coldest week of the measured year")
        {
            Start = span.Zone.StartOf(start),
            End = span.Zone.StartOf(start.PlusDays(Days)),
            DayMeansC = [.. Enumerable.Range(best, Days).Select(d => sums[d] / halfHours[d])],
        };
    }
}
