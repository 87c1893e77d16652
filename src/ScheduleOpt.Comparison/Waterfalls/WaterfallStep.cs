namespace ScheduleOpt.Comparison.Waterfalls;

/// <summary>One step of a waterfall.</summary>
/// <param name="Part">The part.</param>
/// <param name="Amount">What the second costs more in it, to the cent; negative where it costs less. [currency a year]</param>
public sealed record WaterfallStep(WaterfallPart Part, decimal Amount);
