using NodaTime;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>Metering intervals that follow one another.</summary>
/// <param name="From">The first.</param>
/// <param name="Until">The one after the last.</param>
/// <param name="Share">The share of each that is meant.</param>
internal readonly record struct MeterSpan(int From, int Until, double Share = 1)
{
    /// <summary>The metering intervals that begin in some hours.</summary>
    public static MeterSpan[] Of(IEnumerable<Interval> hours, MeteredSeries series) =>
        [.. hours.Select(h => new MeterSpan(IndexOf(h.Start, series), IndexOf(h.End, series))).Where(s => s.Until > s.From)];

    /// <summary>The metering intervals that lie in some hours, those on their edges by the share that does: energy is even inside an interval.</summary>
    public static MeterSpan[] Covered(IEnumerable<Interval> hours, MeteredSeries series)
    {
        var spans = new List<MeterSpan>();
        foreach (var span in hours)
        {
            var (start, end) = (Math.Max(0, (span.Start - series.Start) / series.Interval), Math.Min(series.Count, (span.End - series.Start) / series.Interval));
            var (first, last) = ((int)Math.Ceiling(start), (int)Math.Floor(end));
            if (start >= end)
            {
                continue;
            }

            if (first > last)
            {
                Add(spans, new(last, first, end - start));
                continue;
            }

            Add(spans, new(first - 1, first, first - start));
            Add(spans, new(first, last));
            Add(spans, new(last, last + 1, end - last));
        }

        return [.. spans];
    }

    private static void Add(List<MeterSpan> spans, MeterSpan span)
    {
        if (span.Share <= 0 || span.Until <= span.From)
        {
            return;
        }

        if (spans.Count > 0 && spans[^1].Until > span.From)
        {
            spans[^1] = spans[^1] with { Share = spans[^1].Share + span.Share };
            return;
        }

        spans.Add(span);
    }

    /// <summary>The first metering interval that begins at or after an instant.</summary>
    public static int IndexOf(Instant instant, MeteredSeries series) =>
        (int)Math.Clamp(Math.Ceiling((instant - series.Start) / series.Interval), 0, series.Count);
}
