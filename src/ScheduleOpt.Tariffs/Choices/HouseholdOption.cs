namespace ScheduleOpt.Tariffs.Choices;

/// <summary>Something that a household chooses, or that its home decides: territory, heating, hours.</summary>
/// <param name="Name">Its name in the document.</param>
/// <param name="Choices">At least two.</param>
/// <param name="Default">The choice where none is given.</param>
/// <param name="Description">What it is about; may be empty.</param>
public sealed record HouseholdOption(string Name, IReadOnlyList<string> Choices, string Default, string Description = "");
