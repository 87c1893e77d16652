using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.Calendars;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>A comparison over a year, read and checked: the body of <c>POST /v1/comparisons</c>.</summary>
/// <param name="Case">What is to be compared; nothing in it contradicts itself.</param>
/// <param name="Options">What the household chose.</param>
/// <param name="Ignored">Events of the calendar that are no trips, with the reason.</param>
/// <param name="Warnings">What the asker must know about how the request was read.</param>
public sealed record ComparisonRequest(
    YearCase Case, ScheduleOptions Options, IReadOnlyList<IgnoredEvent> Ignored, IReadOnlyList<string> Warnings);
