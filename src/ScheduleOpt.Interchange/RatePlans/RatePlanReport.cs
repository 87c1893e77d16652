using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>What a check of a rate-plan document found.</summary>
/// <param name="Plan">The plan; none where there is a fault.</param>
/// <param name="Faults">What must be put right; empty for a plan that can be billed.</param>
/// <param name="Warnings">What is odd, though it can be billed.</param>
public sealed record RatePlanReport(RatePlan? Plan, IReadOnlyList<RatePlanFinding> Faults, IReadOnlyList<RatePlanFinding> Warnings);

/// <summary>One finding.</summary>
/// <param name="Fault">Where, which rule, what was found.</param>
/// <param name="Suggestion">What to do about it; empty where there is nothing to say beyond the rule.</param>
public sealed record RatePlanFinding(Fault Fault, string Suggestion)
{
    /// <summary>The finding as a sentence for people.</summary>
    public override string ToString() => Suggestion.Length > 0 ? $"{Fault} {Suggestion}" : Fault.ToString();
}
