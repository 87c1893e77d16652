using NodaTime;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>What a utility says about a bill of its own in a Green Button file: check figures for a bill that is worked out here.</summary>
/// <param name="Start">Start of the billing period it speaks of; none where it does not say.</param>
/// <param name="End">End of that billing period.</param>
/// <param name="Amount">The last period's bill. [currency]</param>
/// <param name="Currency">ISO 4217 code; empty where it is not known.</param>
/// <param name="Kwh">The last period's use. [kWh]</param>
/// <param name="RatePlan">The utility's name of the rate plan; empty where it is not given.</param>
public sealed record BillSummary(Instant? Start, Instant? End, decimal? Amount, string Currency, decimal? Kwh, string RatePlan);
