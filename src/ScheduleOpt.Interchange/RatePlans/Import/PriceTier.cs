namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>One tier of a period of a structure.</summary>
/// <param name="Max">Upper limit; none in the last. [kWh, kW or kWh per kW]</param>
/// <param name="Price">rate + adj. [currency per kWh or kW]</param>
/// <param name="Sell">What exported energy is paid; none where it is not stated. [currency per kWh]</param>
/// <param name="Unit">Unit of the limit as written, in small letters; empty where it is not stated.</param>
internal sealed record PriceTier(decimal? Max, decimal Price, decimal? Sell, string Unit);
