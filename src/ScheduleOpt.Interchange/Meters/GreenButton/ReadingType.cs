namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>What the readings of a feed measure, in ESPI's own codes (usage.xsd 3.3).</summary>
internal sealed record ReadingType
{
    public const int WattHours = 72, Watts = 38;
    public const int Register = 1, Difference = 4, Indicating = 6, Summation = 9, Instantaneous = 12;
    public const int Delivered = 1, Net = 4, Received = 19;

    public required string Pointer { get; init; }

    public int? Unit { get; init; }

    public int PowerOfTen { get; init; }

    public int? Accumulation { get; init; }

    public int? Flow { get; init; }

    public int? Commodity { get; init; }

    /// <summary>Length of a reading that states none. [s]</summary>
    public int? IntervalLength { get; init; }

    public int? Currency { get; init; }

    public bool HasBucket { get; init; }
}
