namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>How good a reading is, by the codes of ESPI's QualityOfReading (usage.xsd 3.3), in its own numbers.</summary>
internal enum ReadingQuality : byte
{
    Valid = 0,
    Edited = 7,
    Estimated = 8,
    Interpolated = 9,
    Questionable = 10,
    Derived = 11,
    Projected = 12,
    Mixed = 13,
    Raw = 14,
    WeatherAdjusted = 15,
    Other = 16,
    Validated = 17,
    FailedACheck = 18,
    RevenueQuality = 19,

    /// <summary>The file does not say.</summary>
    NotStated = 31,
}
