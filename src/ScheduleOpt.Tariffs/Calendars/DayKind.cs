namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>Season and day type of a date, as indices into the calendar's lists.</summary>
internal readonly record struct DayKind(int Season, int DayType);
