using ScheduleOpt.Interchange.Meters.Csv;

namespace ScheduleOpt.Interchange.Prices;

/// <summary>One row of a table of prices.</summary>
/// <param name="Line">Its line, from 1.</param>
/// <param name="Stamp">Its date and time.</param>
/// <param name="PerKwh">Its price; none where it is blank. [currency/kWh]</param>
internal readonly record struct PriceRow(int Line, Stamp Stamp, decimal? PerKwh);
