using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>A rate plan as a request gives it: the plan, and what the household chose on it.</summary>
/// <param name="Plan">The plan; its identifier is the request's label for it, if there is one.</param>
/// <param name="Choices">The choice for each option of the plan, defaults included.</param>
/// <param name="ServiceKw">Size of the household's service; none for the plan's own. [kW]</param>
/// <param name="HasLines">Whether the document is one that comes with the program, so that its lines mean something to the asker.</param>
internal sealed record ChosenRatePlan(RatePlan Plan, IReadOnlyDictionary<string, string> Choices, decimal? ServiceKw, bool HasLines)
{
    /// <summary>What the asker left open and the plan's own defaults settled.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];

    /// <summary>The plan with its choices made.</summary>
    public RatePlan Made { get; } = Plan.For(Choices);
}
