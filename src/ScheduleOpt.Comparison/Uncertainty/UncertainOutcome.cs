namespace ScheduleOpt.Comparison.Uncertainty;

/// <summary>What a run gave.</summary>
/// <param name="Amount">The figure that is reported: a cost or net savings. [currency]</param>
/// <param name="First">What came first in the ranking; where it differs from the base case the input flips the ranking.</param>
public sealed record UncertainOutcome(decimal Amount, string First);
