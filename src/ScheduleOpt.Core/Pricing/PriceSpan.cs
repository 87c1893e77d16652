using NodaTime;

namespace ScheduleOpt.Core.Pricing;

/// <summary>One price for a span of time.</summary>
/// <param name="Start">When the price begins to hold; it holds to the start of the next span.</param>
/// <param name="ImportPerKwh">What one more kWh at the meter adds to the bill, adjustments and percentage taxes included; may be negative.
/// [currency/kWh]</param>
/// <param name="Period">The period's name in the rate plan, such as <c>on-peak</c>.</param>
/// <param name="ExportPerKwh">What one more exported kWh takes off the bill; zero where export earns nothing. [currency/kWh]</param>
public readonly record struct PriceSpan(Instant Start, decimal ImportPerKwh, string Period, decimal ExportPerKwh = 0);
