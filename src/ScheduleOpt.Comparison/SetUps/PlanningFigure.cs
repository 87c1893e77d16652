namespace ScheduleOpt.Comparison.SetUps;

/// <summary>A figure that is planned with, and why it is that one.</summary>
/// <param name="Value">The figure.</param>
/// <param name="Unit">USD or the household's currency, a or W.</param>
/// <param name="Note">Given by the household, or the middle of which range.</param>
/// <param name="IsOwn">Whether the household gave it.</param>
public sealed record PlanningFigure(decimal Value, string Unit, string Note, bool IsOwn);
