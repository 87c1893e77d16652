namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>Hours in which an event gives the period.</summary>
/// <param name="StartSecond">Start, included. [s since 1970-01-01T00:00Z]</param>
/// <param name="EndSecond">End, excluded. [s since 1970-01-01T00:00Z]</param>
/// <param name="Period">Index of the period.</param>
internal readonly record struct EventSpan(long StartSecond, long EndSecond, int Period);
