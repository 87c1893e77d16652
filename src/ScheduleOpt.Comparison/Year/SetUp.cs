using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Comparison.Year;

/// <summary>One way of charging that a household could choose.</summary>
/// <param name="Name">What the household calls it; unique in a comparison.</param>
/// <param name="Supply">The supply at home; none: public charging alone.</param>
public sealed record SetUp(string Name, Supply? Supply)
{
    /// <summary>Public charging alone.</summary>
    public static SetUp PublicChargingOnly(string name) => new(name, null);
}
