namespace ScheduleOpt.Tariffs.Billing;

/// <summary>The use and the length of one billing period, sorted into a plan's cells.</summary>
/// <param name="MicroKwh">Energy by cell. [1e-6 kWh]</param>
/// <param name="Days">Days by slice and season; a part of a day as a fraction. [days]</param>
/// <param name="TotalDays">Days in all. [days]</param>
/// <param name="Months">Months that it counts for under the plan's proration. [months]</param>
internal sealed record PeriodUse(long[] MicroKwh, decimal[] Days, decimal TotalDays, decimal Months)
{
    public decimal TotalKwh => MicroKwh.Sum() / (decimal)MeteredSeries.UnitsPerKilowattHour;

    public decimal Kwh(IEnumerable<int> cells) => cells.Sum(c => MicroKwh[c]) / (decimal)MeteredSeries.UnitsPerKilowattHour;

    public decimal Units(Charges.ChargeUnit unit) => unit == Charges.ChargeUnit.Day ? TotalDays : Months;
}
