using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>One averaging window of a demand term: the intervals that it touches and how long of each. [h]</summary>
internal sealed record DemandWindow(int First, double[] Hours)
{
    /// <summary>How much of it lies in the horizon. [h]</summary>
    public double Total { get; } = Hours.Sum();
}

/// <summary>The averaging windows of a demand term that lie in the horizon.</summary>
/// <remarks>Aligned ones begin at multiples of their length since 1970-01-01T00:00Z, as the meter's clock does; sliding ones at every boundary. A window that the
/// horizon cuts is averaged over the part inside: what lies outside is taken to be like it.</remarks>
internal static class DemandWindows
{
    public static List<DemandWindow> Of(DemandTerm term, Instant[] boundaries)
    {
        var windows = new List<DemandWindow>();
        var step = (long)term.Averaging.TotalSeconds;
        var begin = boundaries[0].ToUnixTimeSeconds();
        var end = boundaries[^1].ToUnixTimeSeconds();
        var first = 0;
        foreach (var span in term.Hours)
        {
            var (from, until) = (Math.Max(span.Start.ToUnixTimeSeconds(), term.Sliding ? begin : begin - step + 1), Math.Min(span.End.ToUnixTimeSeconds(), end));
            if (term.Sliding)
            {
                for (var b = LowerBound(boundaries, from); b < boundaries.Length - 1 && boundaries[b].ToUnixTimeSeconds() < until; b++)
                {
                    Add(boundaries[b].ToUnixTimeSeconds());
                }
            }
            else
            {
                for (var start = FloorTo(from + step - 1, step); start < until; start += step)
                {
                    Add(start);
                }
            }
        }

        return windows;

        void Add(long start)
        {
            var stop = start + step;
            if (stop <= begin || stop > term.BillingPeriod.End.ToUnixTimeSeconds())
            {
                return;
            }

            while (first > 0 && boundaries[first].ToUnixTimeSeconds() > start)
            {
                first--;
            }

            while (boundaries[first + 1].ToUnixTimeSeconds() <= start)
            {
                first++;
            }

            var hours = new List<double>();
            for (var i = first; i < boundaries.Length - 1 && boundaries[i].ToUnixTimeSeconds() < stop; i++)
            {
                var overlap = Math.Min(stop, boundaries[i + 1].ToUnixTimeSeconds()) - Math.Max(start, boundaries[i].ToUnixTimeSeconds());
                hours.Add(overlap / 3600.0);
            }

            windows.Add(new(first, [.. hours]));
        }
    }

    private static long FloorTo(long second, long step) => second - (((second % step) + step) % step);

    private static int LowerBound(Instant[] boundaries, long second)
    {
        var at = Array.BinarySearch(boundaries, Instant.FromUnixTimeSeconds(second));
        return at >= 0 ? at : ~at;
    }
}
