namespace ScheduleOpt.Tariffs.Charges;

/// <summary>A charge for the highest average power of a billing period.</summary>
/// <param name="Name">What the bill calls it.</param>
/// <param name="PricePerKw">Price per kW and billing period. [currency/kW]</param>
/// <param name="AveragingMinutes">Length over which power is averaged, aligned with the clock: 15, 30 or 60. A series in longer intervals is taken as
/// it is. [min]</param>
/// <param name="Seasons">Seasons in which use counts; empty for all.</param>
/// <param name="Periods">Periods in which use counts; empty for all.</param>
public sealed record DemandCharge(
    string Name, decimal PricePerKw, int AveragingMinutes, IReadOnlyList<string> Seasons, IReadOnlyList<string> Periods);
