namespace ScheduleOpt.Comparison.SetUps;

/// <summary>One part of a first cost.</summary>
/// <param name="Name">What is bought.</param>
/// <param name="Range">What others published; none where we found no published range: then only the household's own value counts.</param>
/// <param name="IsOptional">Whether only some houses need it, as a larger panel: left out unless the household asks for it.</param>
public sealed record FirstCostItem(string Name, PublishedRange? Range, bool IsOptional = false);
