namespace ScheduleOpt.Interchange.Calendars;

/// <summary>An event that was not taken as a trip.</summary>
/// <param name="Label">Its summary; empty if it has none.</param>
/// <param name="Line">The line its component begins at, from 1.</param>
/// <param name="Reason">Why it is no trip, as a sentence.</param>
public sealed record IgnoredEvent(string Label, int Line, string Reason);
