namespace ScheduleOpt.Interchange.Meters;

/// <summary>Order of a date written in numbers.</summary>
public enum DateOrder
{
    /// <summary>Year, month, day.</summary>
    YearMonthDay,

    /// <summary>Month, day, year.</summary>
    MonthDayYear,

    /// <summary>Day, month, year.</summary>
    DayMonthYear,
}
