using NodaTime;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>Finds the billing period that empties a bank.</summary>
internal static class Settlement
{
    /// <summary>Whether a billing period holds the last day of the month.</summary>
    public static bool IsIn(RatePlan plan, BillingPeriod period, int? month)
    {
        if (month is not { } settled)
        {
            return false;
        }

        var (from, to) = (period.Start.InZone(plan.Zone).Date.Year, period.End.InZone(plan.Zone).Date.Year);
        for (var year = from; year <= to; year++)
        {
            var day = new LocalDate(year, settled, CalendarSystem.Iso.GetDaysInMonth(year, settled)).AtStartOfDayInZone(plan.Zone).ToInstant();
            if (day >= period.Start && day < period.End)
            {
                return true;
            }
        }

        return false;
    }
}
