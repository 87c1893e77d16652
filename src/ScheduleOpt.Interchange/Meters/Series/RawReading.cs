namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>One reading as a file gives it. Twenty-four bytes: there may be two million.</summary>
internal readonly struct RawReading(long start, int duration, long value, int rank, ReadingQuality quality)
{
    /// <summary>Most that <see cref="Rank"/> may be.</summary>
    public const int MostRank = (1 << 26) - 1;

    /// <summary>When it begins. [s since 1970, UTC]</summary>
    public long Start { get; } = start;

    /// <summary>What was measured, in the file's unit or in millionths of a kWh.</summary>
    public long Value { get; } = value;

    /// <summary>How long it lasts. [s]</summary>
    public int Duration { get; } = duration;

    // Declared last: the fields lie in memory in the order in which they are written here.
    private readonly int packed = (rank << 5) | (int)quality;

    /// <summary>Its end. [s since 1970, UTC]</summary>
    public long End => Start + Duration;

    /// <summary>Of two readings for the same time the higher rank wins.</summary>
    public int Rank => packed >> 5;

    public ReadingQuality Quality => (ReadingQuality)(packed & 31);

    public RawReading With(long start, int duration, long value) => new(start, duration, value, Rank, Quality);

    public RawReading WithRank(int rank) => new(Start, Duration, Value, rank, Quality);
}
