using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>The use and the length of one billing period, sorted into the cells of a plan's calendars.</summary>
internal sealed class PeriodUse
{
    private const int Decimals = 12;

    public required BillingPeriod Period { get; init; }

    /// <summary>Import by calendar and cell, net of what net metering took off. [1e-6 kWh]</summary>
    public required long[][] Import { get; init; }

    /// <summary>Export by calendar and cell. [1e-6 kWh]</summary>
    public required long[][] Export { get; init; }

    /// <summary>Days by calendar, slice and season; a part of a day as a fraction. [days]</summary>
    public required decimal[][] Days { get; init; }

    /// <summary>Spans of each calendar, in order.</summary>
    public required List<CalendarSpan>[] Spans { get; init; }

    /// <summary>Days in all. [days]</summary>
    public required decimal TotalDays { get; init; }

    /// <summary>Months that it counts for under the plan's proration. [months]</summary>
    public required decimal Months { get; init; }

    /// <summary>Months from the year 0 to the billing month.</summary>
    public required int MonthIndex { get; init; }

    /// <summary>Name of the billing season; none where the plan has none.</summary>
    public required string? BillingSeason { get; init; }

    /// <summary>What is billed; none for no use.</summary>
    public required BilledUse? Billed { get; init; }

    public long TotalMicroKwh => Import[0].Sum();

    public decimal TotalKwh => Kwh(TotalMicroKwh);

    /// <summary>How many units the whole billing period counts for.</summary>
    public decimal Units(ChargeUnit unit) => unit switch
    {
        ChargeUnit.BillingPeriod => 1,
        ChargeUnit.Day => TotalDays,
        ChargeUnit.Year => decimal.Round(Months / 12, Decimals),
        _ => Months,
    };

    public static decimal Kwh(long micro) => micro / (decimal)MeteredSeries.UnitsPerKilowattHour;
}
