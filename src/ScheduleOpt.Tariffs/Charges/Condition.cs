namespace ScheduleOpt.Tariffs.Charges;

/// <summary>What a household must have chosen for something to hold.</summary>
/// <param name="Choices">By option: the choices of which one must be taken; all options must match.</param>
public sealed record Condition(IReadOnlyDictionary<string, IReadOnlyList<string>> Choices)
{
    /// <summary>Whether it holds.</summary>
    /// <param name="taken">The choice taken for each option.</param>
    public bool HoldsFor(IReadOnlyDictionary<string, string> taken) =>
        Choices.All(c => taken.TryGetValue(c.Key, out var choice) && c.Value.Contains(choice));
}
