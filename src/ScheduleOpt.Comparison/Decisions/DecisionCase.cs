using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>What is to be decided: the year's comparison, the money of each set-up, and what else is asked about it.</summary>
public sealed record DecisionCase
{
    /// <summary>The most cells of a comparison whose uncertainty is asked for: each of its inputs runs them all twice more.</summary>
    public const int MostCellsForUncertainty = 60;

    /// <summary>The year.</summary>
    public required YearCase Year { get; init; }

    /// <summary>The year's set-ups in its order, with their money.</summary>
    public required IReadOnlyList<OfferedSetUp> SetUps { get; init; }

    /// <summary>The reference case; needed for life-cycle cost.</summary>
    public CellName? Today { get; init; }

    /// <summary>Life-cycle cost; none: the year's cash alone.</summary>
    public LifeCycleQuestion? LifeCycle { get; init; }

    /// <summary>The panel; none: nothing is said of it.</summary>
    public PanelQuestion? Panel { get; init; }

    /// <summary>Whether the year is run over all its weather years, and a typical one with the stated stress.</summary>
    public bool Winters { get; init; }

    /// <summary>Whether break-evens are searched.</summary>
    public bool BreakEvens { get; init; }

    /// <summary>Whether inputs are varied one at a time.</summary>
    public bool Uncertainty { get; init; }
}
