using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>A cell with its money over the years.</summary>
/// <param name="Year">The year's cell.</param>
/// <param name="LifeCycle">Against the reference, at the discount rate; none where it was not asked for or a first cost is not known.</param>
/// <param name="AtLoanRate">The same at the loan's real rate; none without a loan.</param>
/// <param name="Rank">Place by life-cycle cost where that is asked for, else by the year's cash; none where a first cost is not known.</param>
public sealed record DecisionCell(YearCell Year, LifeCycleResult? LifeCycle, LifeCycleResult? AtLoanRate, int? Rank)
{
    /// <summary>What the cell is ranked by: life-cycle cost, else the year's cash. [currency]</summary>
    public decimal Cost => LifeCycle?.Alternative.Total ?? Year.WholeHouseCost;

    /// <summary>Net first cost as an equal amount a year; zero where no life-cycle cost was asked for. [currency a year]</summary>
    public decimal InstallPerYear => LifeCycle?.Alternative.CapitalPerYear ?? 0;

    /// <summary>Its name.</summary>
    public CellName Name => CellName.Of(Year);
}
