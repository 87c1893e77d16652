using NodaTime;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>The days of the week as documents write them.</summary>
internal static class Weekdays
{
    public static IReadOnlyDictionary<string, IsoDayOfWeek> ByName { get; } = new Dictionary<string, IsoDayOfWeek>
    {
        ["monday"] = IsoDayOfWeek.Monday,
        ["tuesday"] = IsoDayOfWeek.Tuesday,
        ["wednesday"] = IsoDayOfWeek.Wednesday,
        ["thursday"] = IsoDayOfWeek.Thursday,
        ["friday"] = IsoDayOfWeek.Friday,
        ["saturday"] = IsoDayOfWeek.Saturday,
        ["sunday"] = IsoDayOfWeek.Sunday,
    };
}
