using NodaTime;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Winters;

/// <summary>A comparison over several weather years, or over one and what its winter does not show.</summary>
public sealed record WintersResult
{
    /// <summary>By how much the coldest week of a typical year is made colder: a typical year has no record cold. Our choice, no source. [K]</summary>
    public const double StressK = -10;

    /// <summary>The weather years in the order of the case: their source, and whether they are typical.</summary>
    public required IReadOnlyList<WinterSource> Weather { get; init; }

    /// <summary>The cells of the comparison, in its order, over all weather years.</summary>
    public required IReadOnlyList<WinterCell> Cells { get; init; }

    /// <summary>The coldest week of all the weather years and what it may be called: 'worst on record' only of years that were measured.</summary>
    public required ColdestWeek ColdestWeek { get; init; }

    /// <summary>Index of the weather year that it lies in.</summary>
    public required int ColdestYear { get; init; }

    /// <summary>What the stress is, in words; none where years were measured.</summary>
    public string? Stress { get; init; }
}

/// <summary>One weather year.</summary>
/// <param name="Source">Where its temperatures come from.</param>
/// <param name="IsTypical">Whether it is a typical year.</param>
/// <param name="ColdestWeek">Its coldest week.</param>
public sealed record WinterSource(string Source, bool IsTypical, ColdestWeek ColdestWeek);
