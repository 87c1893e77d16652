namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>How large a rate-plan document may be. Checked while it is read, before anything is built from it.</summary>
internal static class DocumentLimits
{
    public const int Bytes = 1024 * 1024;
    public const int Depth = 32;
    public const int Nodes = 20_000;
}
