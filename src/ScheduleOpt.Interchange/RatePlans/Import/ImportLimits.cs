namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>How large an answer of the rate database may be.</summary>
internal static class ImportLimits
{
    /// <summary>An answer holds at most 500 records. [characters]</summary>
    public const int Characters = 8 * 1024 * 1024;

    public const int Depth = 16;

    public const int Periods = 60;

    public const int Tiers = 20;

    /// <summary>Fields of a record that are reported one by one.</summary>
    public const int Fields = 300;
}
