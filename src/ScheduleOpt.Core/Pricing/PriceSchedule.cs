using NodaTime;

namespace ScheduleOpt.Core.Pricing;

/// <summary>The price of energy over time: where rate plans and the scheduler meet. They never know each other.</summary>
/// <remarks>Spans follow one another without a gap from <see cref="Start"/> (included) to <see cref="End"/> (excluded); neighbours with the
/// same prices and period are one span.</remarks>
public sealed class PriceSchedule
{
    private readonly PriceSpan[] spans;

    /// <summary>Makes a price schedule.</summary>
    /// <param name="spans">In order of start, at least one.</param>
    /// <param name="end">The end of the last span.</param>
    /// <param name="currency">ISO 4217 code.</param>
    /// <param name="warnings">What the reader of the prices must know, such as a block that a price was taken from.</param>
    /// <param name="terms">Parts of the bill that a price per kWh does not say.</param>
    /// <param name="edges">Kinks and jumps around the expected use.</param>
    /// <exception cref="ArgumentException">No span, or spans that are not in order.</exception>
    public PriceSchedule(
        IEnumerable<PriceSpan> spans,
        Instant end,
        string currency,
        IEnumerable<string>? warnings = null,
        IEnumerable<PriceTerm>? terms = null,
        IEnumerable<PriceEdge>? edges = null)
    {
        var merged = new List<PriceSpan>();
        foreach (var span in spans)
        {
            if (merged.Count > 0 && span.Start <= merged[^1].Start)
            {
                throw new ArgumentException("Price spans must be in order of their starts.", nameof(spans));
            }

            if (merged.Count == 0 || span.ImportPerKwh != merged[^1].ImportPerKwh || span.ExportPerKwh != merged[^1].ExportPerKwh
                || span.Period != merged[^1].Period)
            {
                merged.Add(span);
            }
        }

        if (merged.Count == 0 || end <= merged[^1].Start)
        {
            throw new ArgumentException("A price schedule needs at least one span, and an end after its start.", nameof(spans));
        }

        this.spans = [.. merged];
        End = end;
        Currency = currency;
        Warnings = [.. warnings ?? []];
        Terms = [.. terms ?? []];
        Edges = [.. edges ?? []];
    }

    /// <summary>When the first price begins.</summary>
    public Instant Start => spans[0].Start;

    /// <summary>When the last price ends.</summary>
    public Instant End { get; }

    /// <summary>ISO 4217 code of the prices.</summary>
    public string Currency { get; }

    /// <summary>The spans in order.</summary>
    public IReadOnlyList<PriceSpan> Spans => spans;

    /// <summary>What the reader of the prices must know.</summary>
    public IReadOnlyList<string> Warnings { get; }

    /// <summary>Parts of the bill that a price per kWh does not say, by billing period.</summary>
    public IReadOnlyList<PriceTerm> Terms { get; }

    /// <summary>Kinks and jumps around the expected use.</summary>
    public IReadOnlyList<PriceEdge> Edges { get; }

    /// <summary>The span that holds at an instant.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The instant is outside the schedule.</exception>
    public PriceSpan At(Instant instant)
    {
        if (instant < Start || instant >= End)
        {
            throw new ArgumentOutOfRangeException(nameof(instant), instant, "The price schedule does not cover this instant.");
        }

        int low = 0, high = spans.Length - 1;
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            if (spans[middle].Start <= instant)
            {
                low = middle;
            }
            else
            {
                high = middle - 1;
            }
        }

        return spans[low];
    }
}
