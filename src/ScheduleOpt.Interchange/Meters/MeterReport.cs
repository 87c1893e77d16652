using NodaTime;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>What a series was made of.</summary>
public sealed record MeterReport
{
    /// <summary>Readings taken.</summary>
    public required int Readings { get; init; }

    /// <summary>Readings with the same start and length as another, of which the one updated later was taken.</summary>
    public int DuplicatesReplaced { get; init; }

    /// <summary>Readings left out because they overlap another.</summary>
    public int OverlapsDropped { get; init; }

    /// <summary>Readings whose energy was spread evenly over several intervals, because they are longer or do not begin where intervals do.</summary>
    public int ReadingsSpread { get; init; }

    /// <summary>Readings left out: negative ones of a flow that can't be, differences of a register that ran backwards, readings of more than a
    /// day.</summary>
    public int ReadingsUnusable { get; init; }

    /// <summary>Every gap, the first thousand of them.</summary>
    public IReadOnlyList<MeterGap> Gaps { get; init; } = [];

    /// <summary>Gaps of more than two hours.</summary>
    public IEnumerable<MeterGap> LongGaps => Gaps.Where(g => g.End - g.Start > Duration.FromHours(2));

    /// <summary>Intervals without a reading, filled or not.</summary>
    public int MissingIntervals { get; init; }

    /// <summary>Missing intervals over all intervals. [0..1]</summary>
    public double MissingShare { get; init; }

    /// <summary>How they were filled: a sentence; empty where none was missing.</summary>
    public string MissingRule { get; init; } = "";

    /// <summary>Intervals whose reading the utility estimated, interpolated, derived or projected, over all that were read. [0..1]</summary>
    public double EstimatedShare { get; init; }

    /// <summary>Share of readings by the utility's word for their quality. [0..1]</summary>
    public IReadOnlyDictionary<string, double> QualityShares { get; init; } = new Dictionary<string, double>();

    /// <summary>Sum of the costs that the file states beside its readings, a check figure; none where it states none. [currency]</summary>
    public decimal? StatedCost { get; init; }

    /// <summary>Whether at least 90 % of a year of 365 days was read, so that an annual comparison may rest on it.</summary>
    public bool IsEnoughForAYear { get; init; }
}
