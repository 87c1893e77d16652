namespace ScheduleOpt.Interchange.Requests;

/// <summary>A named scenario.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Author">Who made it; empty where that is not said.</param>
/// <param name="Overrides">What it puts in place of the request's own values and of defaults.</param>
public sealed record Scenario(string Name, string Author, IReadOnlyList<ScenarioOverride> Overrides);

/// <summary>A value that a scenario puts in place of another.</summary>
/// <param name="Field">The field: a JSON pointer in fragment form.</param>
/// <param name="Value">The value, as JSON.</param>
/// <param name="Was">What the request had, as JSON; none where it had nothing and a default held.</param>
/// <param name="Note">Why.</param>
/// <param name="Author">Who says so.</param>
public sealed record ScenarioOverride(string Field, string Value, string? Was, string Note, string Author);
