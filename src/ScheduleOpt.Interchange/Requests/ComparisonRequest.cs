using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.Calendars;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>A comparison over a year, read and checked: the body of <c>POST /v1/comparisons</c>.</summary>
public sealed record ComparisonRequest
{
    /// <summary>What is to be decided; nothing in it contradicts itself.</summary>
    public required DecisionCase Decision { get; init; }

    /// <summary>The year in it.</summary>
    public YearCase Case => Decision.Year;

    /// <summary>What the household chose.</summary>
    public required ScheduleOptions Options { get; init; }

    /// <summary>The scenario's name and what it overrides; none: no scenario.</summary>
    public Scenario? Scenario { get; init; }

    /// <summary>How well the house's use is known.</summary>
    public required HouseEvidence House { get; init; }

    /// <summary>Bills to hold the model against; none: the model is not held against any.</summary>
    public CalibrationBills? Calibration { get; init; }

    /// <summary>SHA-256 of the canonical request: equal for equal requests however they are laid out.</summary>
    public required string InputHash { get; init; }

    /// <summary>Events of the calendar that are no trips, with the reason.</summary>
    public required IReadOnlyList<IgnoredEvent> Ignored { get; init; }

    /// <summary>What the asker must know about how the request was read.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}
