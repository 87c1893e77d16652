using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Prices;

/// <summary>Prices as a market or a utility publishes them, read from a table.</summary>
/// <param name="Series">The prices; missing intervals have none. [currency/kWh]</param>
/// <param name="Notes">What the table does not say and was taken to be so.</param>
public sealed record PublishedPrices(PriceSeries Series, IReadOnlyList<string> Notes);
