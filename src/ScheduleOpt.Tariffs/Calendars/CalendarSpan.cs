namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>A stretch of time with one season, one period and one slice of dates.</summary>
/// <param name="StartSecond">Start, included. [s since 1970-01-01T00:00Z]</param>
/// <param name="EndSecond">End, excluded. [s since 1970-01-01T00:00Z]</param>
/// <param name="Season">Index of the season.</param>
/// <param name="Period">Index of the period.</param>
/// <param name="Slice">How many of the dates at which a charge begins or ends lie on or before it.</param>
internal readonly record struct CalendarSpan(long StartSecond, long EndSecond, int Season, int Period, int Slice);
