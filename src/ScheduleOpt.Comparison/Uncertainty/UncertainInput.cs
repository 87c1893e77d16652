namespace ScheduleOpt.Comparison.Uncertainty;

/// <summary>An input that is not known exactly: low, mid and high.</summary>
/// <param name="Name">What it is; unique in a list.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Low">The low value.</param>
/// <param name="Mid">The value of the base case, between the two.</param>
/// <param name="High">The high value.</param>
/// <param name="Basis">Where the three come from.</param>
public sealed record UncertainInput(string Name, string Unit, double Low, double Mid, double High, string Basis);
