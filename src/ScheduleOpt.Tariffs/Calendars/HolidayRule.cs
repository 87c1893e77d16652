using NodaTime;

namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>On which date of a year a holiday falls.</summary>
public abstract record HolidayRule
{
    /// <summary>Its dates in a year, before any move to an observed day.</summary>
    public abstract IEnumerable<LocalDate> InYear(int year);
}

/// <summary>The same month and day every year; 29 February in leap years only.</summary>
public sealed record FixedDateRule(AnnualDate Date) : HolidayRule
{
    /// <inheritdoc/>
    public override IEnumerable<LocalDate> InYear(int year) => Date.IsValidYear(year) ? [Date.InYear(year)] : [];
}

/// <summary>The nth given weekday of a month, or a number of days from it.</summary>
/// <param name="Nth">1 to 5; a fifth that does not exist gives no holiday that year.</param>
/// <param name="Weekday">Day of the week.</param>
/// <param name="Month">1 to 12.</param>
/// <param name="OffsetDays">Days after it, such as 1 for the day after; may be negative.</param>
public sealed record NthWeekdayRule(int Nth, IsoDayOfWeek Weekday, int Month, int OffsetDays = 0) : HolidayRule
{
    /// <inheritdoc/>
    public override IEnumerable<LocalDate> InYear(int year)
    {
        var first = new LocalDate(year, Month, 1);
        var date = first.PlusDays((((int)Weekday - (int)first.DayOfWeek + 7) % 7) + (7 * (Nth - 1)));
        return date.Month == Month ? [date.PlusDays(OffsetDays)] : [];
    }
}

/// <summary>The last given weekday on or before a day of the year: the last of a month, or the Monday before 25 May.</summary>
public sealed record WeekdayOnOrBeforeRule(IsoDayOfWeek Weekday, AnnualDate Date) : HolidayRule
{
    /// <inheritdoc/>
    public override IEnumerable<LocalDate> InYear(int year)
    {
        var date = Date.InYear(year);
        return [date.PlusDays(-(((int)date.DayOfWeek - (int)Weekday + 7) % 7))];
    }
}

/// <summary>A number of days from Easter Sunday (Gregorian), such as -2 for Good Friday.</summary>
public sealed record EasterRule(int OffsetDays) : HolidayRule
{
    /// <inheritdoc/>
    public override IEnumerable<LocalDate> InYear(int year) => [EasterSunday(year).PlusDays(OffsetDays)];

    // The anonymous algorithm published in Nature, 20 April 1876, as given by Meeus, Astronomical Algorithms (2nd ed. 1998), chapter 8.
    private static LocalDate EasterSunday(int year)
    {
        int a = year % 19, b = year / 100, c = year % 100;
        int d = b / 4, e = b % 4, f = (b + 8) / 25, g = (b - f + 1) / 3;
        var h = ((19 * a) + b - d - g + 15) % 30;
        int i = c / 4, k = c % 4;
        var l = (32 + (2 * e) + (2 * i) - h - k) % 7;
        var m = (a + (11 * h) + (22 * l)) / 451;
        var n = h + l - (7 * m) + 114;
        return new(year, n / 31, (n % 31) + 1);
    }
}

/// <summary>Dates that the utility lists one by one.</summary>
public sealed record ListedDatesRule(IReadOnlyList<LocalDate> Dates) : HolidayRule
{
    /// <inheritdoc/>
    public override IEnumerable<LocalDate> InYear(int year) => Dates.Where(d => d.Year == year);
}
