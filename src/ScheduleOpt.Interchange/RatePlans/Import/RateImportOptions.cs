using NodaTime;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>What the rate database does not say and someone has to.</summary>
public sealed record RateImportOptions
{
    /// <summary>The time zone of the utility: the database has no field for it.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>Which record of an answer with several is meant, by its label (24 hexadecimal digits).</summary>
    public string? Label { get; init; }

    /// <summary>What the limits of tiers count where a month has several periods: readers of the database differ.</summary>
    public TierCounting Tiers { get; init; }
}
