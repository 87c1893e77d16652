using NodaTime;

namespace ScheduleOpt.Core.Time;

/// <summary>A span of time cut into half-open intervals at every change that matters; they may differ in length.</summary>
public static class IntervalGrid
{
    /// <summary>The grid steps a household may choose. [min]</summary>
    public static IReadOnlyList<int> StepsInMinutes { get; } = [5, 15, 30, 60];

    /// <summary>Cuts a span at multiples of a step and at the given instants.</summary>
    /// <param name="start">Start of the span, included.</param>
    /// <param name="end">End of the span, excluded; later than the start.</param>
    /// <param name="step">Cuts fall on multiples of this since 1970-01-01T00:00Z: with offsets of whole quarters of an hour also on the
    /// household's clock.</param>
    /// <param name="cuts">Further instants in any order; those outside the span are ignored.</param>
    /// <returns>The boundaries in order: the start, each cut once, the end.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The end is not after the start, or the step is not above zero.</exception>
    public static Instant[] Cut(Instant start, Instant end, Duration step, IEnumerable<Instant> cuts)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(end, start);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(step, Duration.Zero);

        var extra = cuts.Where(c => c > start && c < end).Distinct().ToArray();
        Array.Sort(extra);

        var boundaries = new List<Instant>(16 + extra.Length + (int)Math.Ceiling((end - start) / step)) { start };
        var stepSeconds = (long)step.TotalSeconds;
        var stepsBefore = (long)Math.Floor((double)start.ToUnixTimeSeconds() / stepSeconds);
        var next = Instant.FromUnixTimeSeconds((stepsBefore + 1) * stepSeconds);
        var e = 0;
        while (true)
        {
            var cut = e < extra.Length && extra[e] <= next ? extra[e] : next;
            if (cut >= end)
            {
                break;
            }

            if (e < extra.Length && extra[e] == cut)
            {
                e++;
            }

            if (cut == next)
            {
                next += step;
            }

            boundaries.Add(cut);
        }

        boundaries.Add(end);
        return [.. boundaries];
    }
}
