using NodaTime;

namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>Turns holiday rules into observed dates.</summary>
internal static class HolidayDates
{
    /// <summary>Observed dates in a range, in order. Where two holidays share a date, the one listed first has it.</summary>
    public static IReadOnlyList<(LocalDate Date, Holiday Holiday)> Observed(
        IReadOnlyList<Holiday> holidays, LocalDate from, LocalDate until)
    {
        if (holidays.Count == 0)
        {
            return [];
        }

        // A year more on each side: 1 January may be observed on 31 December, and the end of December in January.
        var actual = new List<(LocalDate Date, Holiday Holiday)>();
        // Holiday by holiday, not year by year: a rule of early January may fall into December, and keeps its place in the list there.
        foreach (var holiday in holidays)
        {
            for (var year = from.Year - 1; year <= until.Year + 1; year++)
            {
                actual.AddRange(holiday.Rule.InYear(year).Select(date => (date, holiday)));
            }
        }

        // First those that stay or move to a named day, then those that look for a free one, in order of their dates: Christmas on a Sunday
        // must not take the Monday of the day after.
        var taken = new Dictionary<LocalDate, Holiday>();
        foreach (var (date, holiday) in actual.Where(h => Move(h.Date, h.Holiday) != ObservedDay.NextFreeWeekday))
        {
            taken.TryAdd(MovedTo(date, Move(date, holiday)), holiday);
        }

        foreach (var (date, holiday) in actual.Where(h => Move(h.Date, h.Holiday) == ObservedDay.NextFreeWeekday).OrderBy(h => h.Date))
        {
            var day = date.PlusDays(1);
            while (day.DayOfWeek >= IsoDayOfWeek.Saturday || taken.ContainsKey(day))
            {
                day = day.PlusDays(1);
            }

            taken.Add(day, holiday);
        }

        return [.. taken.Where(t => t.Key >= from && t.Key <= until).OrderBy(t => t.Key).Select(t => (t.Key, t.Value))];
    }

    private static ObservedDay Move(LocalDate date, Holiday holiday) => date.DayOfWeek switch
    {
        IsoDayOfWeek.Saturday => holiday.SaturdayMovesTo,
        IsoDayOfWeek.Sunday => holiday.SundayMovesTo,
        _ => ObservedDay.Same,
    };

    private static LocalDate MovedTo(LocalDate date, ObservedDay move) => move switch
    {
        ObservedDay.Friday => date.Previous(IsoDayOfWeek.Friday),
        ObservedDay.Monday => date.Next(IsoDayOfWeek.Monday),
        _ => date,
    };
}
