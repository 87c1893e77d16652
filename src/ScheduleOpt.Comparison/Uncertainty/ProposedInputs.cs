namespace ScheduleOpt.Comparison.Uncertainty;

/// <summary>The inputs that we propose to vary. The spreads are our proposal, no source, unless one is named.</summary>
public static class ProposedInputs
{
    private const string Ours = "our proposal, no source";

    /// <summary>All distances times a factor: 0.8, 1, 1.2.</summary>
    public static UncertainInput Distance { get; } = new("Distance", "factor", 0.80, 1, 1.20, Ours);

    /// <summary>Energy per distance times a factor: 0.85, 1, 1.15.</summary>
    public static UncertainInput Consumption { get; } = new("Consumption", "factor", 0.85, 1, 1.15, Ours);

    /// <summary>How strongly consumption answers to temperature: 0.6, 1, 1.6.</summary>
    /// <remarks>1.6: AAA, Electric Vehicle Range Testing (2019), 1.55 to 1.64 at 20 degF with full cabin heat; 0.6 with a heat pump, from memory.</remarks>
    public static UncertainInput WinterPenalty { get; } = new(
        "Winter penalty", "sensitivity", 0.6, 1, 1.6, "high end: AAA 2019 at 20 degF with full cabin heat; low end: heat pump, from memory");

    /// <summary>Real escalation of energy prices a year: none, a middle and twice the middle.</summary>
    /// <param name="mid">The escalation of the base case; zero or more. Default 1 % a year.</param>
    public static UncertainInput PriceEscalation(double mid = 0.01) => new("Price escalation", "a year, real", 0, mid, 2 * mid, Ours);

    /// <summary>The share of nights on which the car is not plugged in: none in the base case, one in seven at the high end.</summary>
    public static UncertainInput MissedNights { get; } = new("Missed nights", "share", 0, 0, 1.0 / 7, Ours);

    /// <summary>All of them.</summary>
    public static IReadOnlyList<UncertainInput> All { get; } = [Distance, Consumption, WinterPenalty, PriceEscalation(), MissedNights];
}
