using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Waterfalls;

/// <summary>One of two cells to be told apart.</summary>
/// <param name="Cell">The cell.</param>
/// <param name="InstallPerYear">Its first cost as an equal amount a year (<see cref="LifeCycle.LifeCycleCost.CapitalPerYear"/>); zero where first cost is
/// left out. [currency a year]</param>
public sealed record WaterfallSide(YearCell Cell, decimal InstallPerYear)
{
    /// <summary>What is told apart: the year's cash and the install share. [currency a year]</summary>
    public decimal Cost => Cell.WholeHouseCost + InstallPerYear;
}
