using NodaTime;

namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>A holiday of a rate plan.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Rule">On which date of a year it falls.</param>
/// <param name="DayType">Name of the day type that its observed day takes.</param>
/// <param name="SaturdayMovesTo">Where it is observed when it falls on a Saturday.</param>
/// <param name="SundayMovesTo">Where it is observed when it falls on a Sunday.</param>
/// <remarks>A date that moves keeps the day type of its own day of the week.</remarks>
public sealed record Holiday(
    string Name,
    HolidayRule Rule,
    string DayType,
    ObservedDay SaturdayMovesTo = ObservedDay.Same,
    ObservedDay SundayMovesTo = ObservedDay.Same);

/// <summary>Where a holiday that falls on a weekend is observed.</summary>
public enum ObservedDay
{
    /// <summary>On the day itself.</summary>
    Same,

    /// <summary>On the Friday before (Saturdays only); it may lie in the year before.</summary>
    Friday,

    /// <summary>On the Monday after, even if that is a holiday already.</summary>
    Monday,

    /// <summary>On the next day from Monday to Friday that no other holiday has taken.</summary>
    NextFreeWeekday,
}
