using ScheduleOpt.Comparison.BreakEvens;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>Where the answer between the first cell and the best one with another set-up or rate plan changes.</summary>
/// <param name="First">The first.</param>
/// <param name="Second">The other.</param>
/// <param name="Axes">The break-evens along each axis that could be searched.</param>
/// <param name="LeftOut">Why other axes were not.</param>
public sealed record Flips(CellName First, CellName Second, IReadOnlyList<BreakEvenResult> Axes, IReadOnlyList<string> LeftOut)
{
    /// <summary>The same with distances in miles.</summary>
    public Flips InMiles() => this with { Axes = [.. Axes.Select(a => a.InMiles())] };
}

