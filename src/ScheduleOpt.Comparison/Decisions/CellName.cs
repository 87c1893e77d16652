using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>Names one cell of a comparison.</summary>
/// <param name="SetUp">Name of the set-up.</param>
/// <param name="RatePlan">Identifier of the rate plan.</param>
/// <param name="Behaviour">Name of the behaviour; none with public charging alone.</param>
public sealed record CellName(string SetUp, string RatePlan, string? Behaviour)
{
    /// <summary>The name in one line; unique in a comparison, because the parts are.</summary>
    public string Words => Behaviour is null ? $"{SetUp} | {RatePlan}" : $"{SetUp} | {RatePlan} | {Behaviour}";

    /// <summary>The name of a cell.</summary>
    public static CellName Of(YearCell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return new(cell.SetUp.Name, cell.RatePlan.Id, cell.Behaviour?.Name);
    }
}
