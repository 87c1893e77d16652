using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Calendars;

namespace ScheduleOpt.SecondBiller;

/// <summary>The observed dates of a list of holidays, with the day type that each takes.</summary>
internal static class Holidays
{
    public static Dictionary<LocalDate, string> Observed(IReadOnlyList<JsonObject> holidays, int firstYear, int lastYear)
    {
        // "Holidays that stay or move to a named day are placed first, those of the years before and after too; then those that move to the `nextFreeWeekday`, in order of
        // their own dates, then of the list: each to the next Monday to Friday on which no holiday has been placed."
        var found = new List<(int Order, LocalDate Date)>();
        var waiting = new List<(int Order, LocalDate Date)>();
        for (var year = firstYear - 1; year <= lastYear + 1; year++)
        {
            for (var order = 0; order < holidays.Count; order++)
            {
                foreach (var date in Dates(holidays[order], year))
                {
                    var moves = date.DayOfWeek switch
                    {
                        IsoDayOfWeek.Saturday => holidays[order].Text("saturdayMovesTo"),
                        IsoDayOfWeek.Sunday => holidays[order].Text("sundayMovesTo"),
                        _ => "none",
                    };
                    if (moves == "nextFreeWeekday")
                    {
                        waiting.Add((order, date));
                    }
                    else
                    {
                        found.Add((order, moves switch
                        {
                            "friday" => date.Previous(IsoDayOfWeek.Friday),
                            "monday" => date.Next(IsoDayOfWeek.Monday),
                            _ => date,
                        }));
                    }
                }
            }
        }

        foreach (var (order, date) in waiting.OrderBy(item => item.Date).ThenBy(item => item.Order))
        {
            var moved = date;
            do
            {
                moved = moved.PlusDays(1);
            }
            while (moved.DayOfWeek is IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday || found.Any(other => other.Date == moved));
            found.Add((order, moved));
        }

        // "The holiday listed first has a date that two share."
        return found.GroupBy(item => item.Date).ToDictionary(
            group => group.Key,
            group => holidays[group.Min(item => item.Order)].Text("dayType")!);
    }

    private static IEnumerable<LocalDate> Dates(JsonObject holiday, int year)
    {
        switch (holiday.Text("rule"))
        {
            case "fixedDate":
                if (On(holiday.MonthAndDay("date"), year) is { } date)
                {
                    yield return date;
                }

                break;
            case "nthWeekday":
                var first = new LocalDate(year, holiday.Integer("month")!.Value, 1);
                var nth = first.With(DateAdjusters.NextOrSame(Weekday(holiday))).PlusWeeks(holiday.Integer("nth")!.Value - 1);
                if (nth.Month == first.Month)
                {
                    yield return nth.PlusDays(holiday.Integer("offsetDays") ?? 0);
                }

                break;
            case "weekdayOnOrBefore":
                if (On(holiday.MonthAndDay("date"), year) is { } last)
                {
                    yield return last.With(DateAdjusters.PreviousOrSame(Weekday(holiday)));
                }

                break;
            case "easter":
                yield return Easter(year).PlusDays(holiday.Integer("offsetDays")!.Value);
                break;
            default:
                foreach (var text in holiday.Names("dates")!)
                {
                    var listed = NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value;
                    if (listed.Year == year)
                    {
                        yield return listed;
                    }
                }

                break;
        }
    }

    private static LocalDate? On(AnnualDate date, int year) => date.IsValidYear(year) ? date.InYear(year) : null;

    public static IsoDayOfWeek Weekday(string name) => Enum.Parse<IsoDayOfWeek>(name, ignoreCase: true);

    private static IsoDayOfWeek Weekday(JsonObject holiday) => Weekday(holiday.Text("weekday")!);

    /// <summary>Gregorian Easter Sunday by Gauss's rule with the century corrections (C. F. Gauss 1816; a table 1990-2100 agrees).</summary>
    private static LocalDate Easter(int year)
    {
        int a = year % 19, century = year / 100;
        var p = (13 + 8 * century) / 25;
        var m = (15 - p + century - century / 4) % 30;
        var n = (4 + century - century / 4) % 7;
        var d = (19 * a + m) % 30;
        var e = (2 * (year % 4) + 4 * (year % 7) + 6 * d + n) % 7;
        var march = 22 + d + e;
        if (d == 29 && e == 6)
        {
            march = 50;
        }
        else if (d == 28 && e == 6 && (11 * m + 11) % 30 < 19)
        {
            march = 49;
        }

        return new LocalDate(year, 3, 1).PlusDays(march - 1);
    }
}
