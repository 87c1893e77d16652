namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>Names that charges can refer to in a drawn calendar.</summary>
internal sealed record CalendarDraft(IReadOnlyList<string> Seasons, IReadOnlyList<string> DayTypes, IReadOnlyList<string> Periods);
