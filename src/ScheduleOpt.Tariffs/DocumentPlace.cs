namespace ScheduleOpt.Tariffs;

/// <summary>A place in a rate-plan document.</summary>
/// <param name="Path">A JSON pointer without <c>#</c>, such as <c>/energyCharges/2</c>.</param>
/// <param name="Line">Line of the text, from 1; none where it is not known.</param>
public sealed record DocumentPlace(string Path, int? Line = null);
