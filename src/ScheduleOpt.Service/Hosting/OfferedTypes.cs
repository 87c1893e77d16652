namespace ScheduleOpt.Service.Hosting;

/// <summary>The media types in which an address answers; an address without it answers in JSON alone.</summary>
/// <param name="Types">The types, the one for askers without a wish first.</param>
internal sealed record OfferedTypes(params string[] Types)
{
    /// <summary>JSON alone.</summary>
    public static OfferedTypes JsonAlone { get; } = new("application/json");
}
