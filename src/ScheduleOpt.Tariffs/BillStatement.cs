using NodaTime;

namespace ScheduleOpt.Tariffs;

/// <summary>The bill of one billing period.</summary>
/// <param name="Start">Start of the billing period, included.</param>
/// <param name="End">End of the billing period, excluded.</param>
/// <param name="Days">Its length; a part of a day as a fraction of that day. [days]</param>
/// <param name="EnergyKwh">Energy at the meter. [kWh]</param>
/// <param name="Lines">Every line; their amounts add up to the total.</param>
/// <param name="Total">The sum of the lines. [currency]</param>
public sealed record BillStatement(
    Instant Start, Instant End, decimal Days, decimal EnergyKwh, IReadOnlyList<BillLine> Lines, decimal Total);
