using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Winters;

/// <summary>One cell over all weather years.</summary>
public sealed record WinterCell
{
    /// <summary>Its name.</summary>
    public required CellName Name { get; init; }

    /// <summary>What the car costs in a year, cash. [currency]</summary>
    public required MedianAndRange CarCost { get; init; }

    /// <summary>What house and car cost in a year, cash. [currency]</summary>
    public required MedianAndRange WholeHouseCost { get; init; }

    /// <summary>What the car takes at home in a year. [kWh at the meter]</summary>
    public required MedianAndRange HomeWallKwh { get; init; }

    /// <summary>Away charging in a year. [kWh at the meters]</summary>
    public required MedianAndRange AwayKwh { get; init; }

    /// <summary>Departures without trip shortfall, as a share; none with public charging alone or without departures.</summary>
    public required MedianAndRange? ReadyShare { get; init; }

    /// <summary>Departures with the target met, as a share; none with public charging alone or without departures.</summary>
    public required MedianAndRange? OnTargetShare { get; init; }

    /// <summary>Days in a year on which the household was left short. [d]</summary>
    public required MedianAndRange ShortDays { get; init; }

    /// <summary>Readiness in <see cref="WintersResult.ColdestWeek"/>, day by day; empty with public charging alone.</summary>
    public required IReadOnlyList<DayReadiness> ColdestWeek { get; init; }

    /// <summary>Readiness in the coldest week of the typical year made colder by <see cref="WintersResult.StressK"/>, day by day; none where years were
    /// measured.</summary>
    public IReadOnlyList<DayReadiness>? Stressed { get; init; }
}
