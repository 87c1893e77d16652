namespace ScheduleOpt.Comparison.SetUps;

/// <summary>A range that others published, with its source: never a fact of this project.</summary>
/// <param name="Low">Its lower end.</param>
/// <param name="High">Its upper end; at least the lower.</param>
/// <param name="Unit">USD, a or W.</param>
/// <param name="Source">Who published it, and when.</param>
/// <param name="Evidence">How well it is known.</param>
public sealed record PublishedRange(decimal Low, decimal High, string Unit, string Source, Evidence Evidence)
{
    /// <summary>The middle of the range.</summary>
    public decimal Middle => (Low + High) / 2;

    /// <summary>The range, its source and how well it is known, in one line.</summary>
    public string SourceLine => FormattableString.Invariant($"{Low:0.##} to {High:0.##} {Unit}: {Source}") + Evidence switch
    {
        Evidence.FromMemory => " (from memory, not confirmed)",
        Evidence.Derived => " (derived)",
        Evidence.Reported => " (as reported elsewhere)",
        _ => "",
    };

    /// <summary>The figure to plan with: the household's own, else the middle.</summary>
    /// <param name="own">The household's own value; none: the middle.</param>
    public PlanningFigure Choose(decimal? own) => own is { } value
        ? new PlanningFigure(value, Unit, "given by the household", true)
        : new PlanningFigure(Middle, Unit, $"planning figure, the middle of {SourceLine}", false);
}
