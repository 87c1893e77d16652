using ScheduleOpt.Comparison.Seasons;
using ScheduleOpt.Comparison.Uncertainty;
using ScheduleOpt.Comparison.Waterfalls;
using ScheduleOpt.Comparison.Winters;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Homes.Panels;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>A decision worked out.</summary>
public sealed record DecisionResult
{
    /// <summary>The year.</summary>
    public required YearResult Year { get; init; }

    /// <summary>The year's cells in its order, with their money.</summary>
    public required IReadOnlyList<DecisionCell> Cells { get; init; }

    /// <summary>What holds for a set-up whatever the rate plan.</summary>
    public required IReadOnlyList<SetUpOutlook> SetUps { get; init; }

    /// <summary>Why the first comes before others.</summary>
    public required IReadOnlyList<Why> Whys { get; init; }

    /// <summary>Other winters; none where they were not asked for.</summary>
    public WintersResult? Winters { get; init; }

    /// <summary>Where the answer changes; none where that was not asked for.</summary>
    public Flips? Flips { get; init; }

    /// <summary>What uncertain inputs do to it; none where that was not asked for.</summary>
    public Tornado? Uncertainty { get; init; }

    /// <summary>The cells that have a place, best first; equal ones in the order of <see cref="Cells"/>.</summary>
    public IEnumerable<DecisionCell> Ranked => Cells.Where(c => c.Rank is not null).OrderBy(c => c.Rank);
}

/// <summary>What holds for a set-up whatever the rate plan.</summary>
/// <param name="Offered">The set-up with its money.</param>
/// <param name="Seasons">Range added per hour and nights that need a plug; empty with public charging alone.</param>
/// <param name="Panel">The panel estimate; none where it was not asked for or does not apply.</param>
public sealed record SetUpOutlook(OfferedSetUp Offered, IReadOnlyList<SeasonOutlook> Seasons, PanelEstimate? Panel);

/// <summary>Why the first cell comes before another.</summary>
/// <param name="Against">second, nextChoice (the best with another set-up or rate plan) or today.</param>
/// <param name="Waterfall">From the first to the other, steps that add up to the cent.</param>
public sealed record Why(string Against, Waterfall Waterfall);
