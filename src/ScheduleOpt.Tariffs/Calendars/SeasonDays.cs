using NodaTime;

namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>The 366 days of a leap year, numbered from 0.</summary>
internal static class SeasonDays
{
    // Any leap year: seasons are the same every year.
    private const int LeapYear = 2000;

    public const int Count = 366;

    public static AnnualDate At(int index)
    {
        var date = new LocalDate(LeapYear, 1, 1).PlusDays(index);
        return new(date.Month, date.Day);
    }

    public static int IndexOf(LocalDate date) =>
        date.DayOfYear - 1 + (date.Month > 2 && !CalendarSystem.Iso.IsLeapYear(date.Year) ? 1 : 0);
}
