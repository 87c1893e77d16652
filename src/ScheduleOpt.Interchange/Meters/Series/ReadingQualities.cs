namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>Words and order of reading qualities.</summary>
internal static class ReadingQualities
{
    // The most doubtful first: a reading with several qualities counts as its worst.
    private static readonly ReadingQuality[] WorstFirst =
    [
        ReadingQuality.Projected, ReadingQuality.Estimated, ReadingQuality.Interpolated, ReadingQuality.Derived, ReadingQuality.WeatherAdjusted,
        ReadingQuality.FailedACheck, ReadingQuality.Questionable, ReadingQuality.Mixed, ReadingQuality.Other, ReadingQuality.Edited, ReadingQuality.Raw,
        ReadingQuality.Validated, ReadingQuality.RevenueQuality, ReadingQuality.Valid, ReadingQuality.NotStated,
    ];

    public static ReadingQuality OfCode(int code) =>
        code is >= 0 and < (int)ReadingQuality.NotStated && Enum.IsDefined((ReadingQuality)code) ? (ReadingQuality)code : ReadingQuality.Other;

    public static ReadingQuality Worse(ReadingQuality one, ReadingQuality other) =>
        Array.IndexOf(WorstFirst, one) <= Array.IndexOf(WorstFirst, other) ? one : other;

    /// <summary>Whether the value is not a measurement.</summary>
    public static bool IsEstimate(ReadingQuality quality) => quality is
        ReadingQuality.Estimated or ReadingQuality.Interpolated or ReadingQuality.Derived or ReadingQuality.Projected or ReadingQuality.WeatherAdjusted;

    public static string Word(ReadingQuality quality) => quality switch
    {
        ReadingQuality.Valid => "valid",
        ReadingQuality.Edited => "edited",
        ReadingQuality.Estimated => "estimated",
        ReadingQuality.Interpolated => "interpolated",
        ReadingQuality.Questionable => "questionable",
        ReadingQuality.Derived => "derived",
        ReadingQuality.Projected => "projected",
        ReadingQuality.Mixed => "mixed",
        ReadingQuality.Raw => "raw",
        ReadingQuality.WeatherAdjusted => "adjusted for weather",
        ReadingQuality.Validated => "validated",
        ReadingQuality.FailedACheck => "failed a check",
        ReadingQuality.RevenueQuality => "revenue quality",
        ReadingQuality.NotStated => "not stated",
        _ => "other",
    };
}
