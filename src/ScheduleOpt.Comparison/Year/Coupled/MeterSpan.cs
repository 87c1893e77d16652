using NodaTime;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>Metering intervals that follow one another.</summary>
/// <param name="From">The first.</param>
/// <param name="Until">The one after the last.</param>
internal readonly record struct MeterSpan(int From, int Until)
{
    /// <summary>The metering intervals that begin in some hours.</summary>
    public static MeterSpan[] Of(IEnumerable<Interval> hours, MeteredSeries series) =>
        [.. hours.Select(h => new MeterSpan(IndexOf(h.Start, series), IndexOf(h.End, series))).Where(s => s.Until > s.From)];

    /// <summary>The first metering interval that begins at or after an instant.</summary>
    public static int IndexOf(Instant instant, MeteredSeries series) =>
        (int)Math.Clamp(Math.Ceiling((instant - series.Start) / series.Interval), 0, series.Count);
}
