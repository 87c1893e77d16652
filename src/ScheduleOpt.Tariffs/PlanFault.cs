namespace ScheduleOpt.Tariffs;

/// <summary>One thing in a rate plan that contradicts itself.</summary>
/// <param name="Path">Where in the document: a JSON pointer without <c>#</c>, such as <c>/energyCharges/2/periods</c>.</param>
/// <param name="Rule">What must hold.</param>
/// <param name="Found">What was found.</param>
public sealed record PlanFault(string Path, string Rule, string Found);
