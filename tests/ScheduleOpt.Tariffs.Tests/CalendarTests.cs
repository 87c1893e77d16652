using NodaTime;
using ScheduleOpt.Tariffs.Calendars;

namespace ScheduleOpt.Tariffs.Tests;

public class CalendarTests
{
    private const string Week = """
        dayTypes:
          - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
          - { name: weekend, days: [saturday, sunday] }

        """;

    // 2026: Friday 2 January, Saturday 3, Sunday 4, Monday 5.
    [Theory]
    [InlineData(2, "21:59", "day")]
    [InlineData(2, "22:00", "night")]
    [InlineData(3, "05:59", "night")]
    [InlineData(3, "06:00", "day off")]
    [InlineData(3, "23:00", "day off")]
    [InlineData(5, "05:59", "day off")]
    [InlineData(5, "06:00", "day")]
    public void WindowOverMidnight_OnAFriday_KeepsTheDayTypeOfItsStart(int day, string time, string period)
    {
        var calendar = Calendar("""
            holidays: []
            periods: [day, night, day off]
            windows:
              - { period: day, dayTypes: [weekday], from: 06:00, to: 22:00 }
              - { period: night, dayTypes: [weekday], from: 22:00, to: 06:00 }
              - { period: day off, dayTypes: [weekend], from: 06:00, to: 24:00 }
              - { period: day off, dayTypes: [weekend], from: 00:00, to: 06:00 }
            defaultPeriod: day off
            """);
        // Saturday 00:00 to 06:00 is claimed by Friday's night, listed before the weekend's own window.
        Assert.Equal(period, calendar.PeriodAt(At(2026, 1, day, time)));
    }

    [Theory]
    [InlineData(2026, 5, 24, "23:59", "spring")]
    [InlineData(2026, 5, 25, "00:00", "summer")]
    [InlineData(2026, 9, 25, "23:59", "summer")]
    [InlineData(2026, 9, 26, "00:00", "spring")]
    [InlineData(2027, 12, 31, "23:59", "winter")]
    [InlineData(2028, 1, 1, "00:00", "winter")]
    [InlineData(2028, 2, 29, "12:00", "winter")]
    [InlineData(2027, 3, 1, "00:00", "spring")]
    public void Season_AtItsBorders_IncludesBothDays(int year, int month, int day, string time, string period)
    {
        var calendar = Calendar("""
            holidays: []
            seasons:
              - { name: summer, ranges: [ { from: 05-25, to: 09-25 } ] }
              - { name: winter, ranges: [ { from: 12-01, to: 02-29 } ] }
              - { name: spring and autumn, ranges: [ { from: 03-01, to: 05-24 }, { from: 09-26, to: 11-30 } ] }
            periods: [summer, winter, spring]
            windows:
              - { period: summer, seasons: [summer], from: 00:00, to: 24:00 }
              - { period: winter, seasons: [winter], from: 00:00, to: 24:00 }
              - { period: spring, seasons: [spring and autumn], from: 00:00, to: 24:00 }
            """);

        Assert.Equal(period, calendar.PeriodAt(At(year, month, day, time)));
    }

    // Independence Day: 4 July 2026 is a Saturday, 4 July 2027 a Sunday.
    [Theory]
    [InlineData("", 2026, "07-04")]
    [InlineData("", 2027, "07-04")]
    [InlineData(", saturdayMovesTo: friday, sundayMovesTo: monday", 2026, "07-03")]
    [InlineData(", saturdayMovesTo: friday, sundayMovesTo: monday", 2027, "07-05")]
    [InlineData(", saturdayMovesTo: monday", 2026, "07-06")]
    [InlineData(", sundayMovesTo: monday", 2026, "07-04")]
    public void Holiday_OnAWeekend_MovesByItsOwnRule(string moves, int year, string observed)
    {
        var calendar = Calendar($$"""
            holidays:
              - { name: Independence Day, rule: fixedDate, date: 07-04, dayType: weekend{{moves}} }
            """);

        var date = calendar.ObservedHolidays(new(year, 1, 1), new(year, 12, 31)).Single().Date;
        Assert.Equal(observed, $"{date.Month:00}-{date.Day:00}");
    }

    // 1 January 2028 is a Saturday.
    [Fact]
    public void Holiday_SaturdayMovesToFriday_MayLieInTheYearBefore()
    {
        var calendar = Calendar("""
            holidays:
              - { name: New Year's Day, rule: fixedDate, date: 01-01, dayType: weekend, saturdayMovesTo: friday }
            """);

        Assert.Contains(calendar.ObservedHolidays(new(2027, 12, 1), new(2027, 12, 31)), h => h.Date == new LocalDate(2027, 12, 31));
        Assert.DoesNotContain(calendar.ObservedHolidays(new(2028, 1, 1), new(2028, 1, 31)), _ => true);
    }

    // The Friday on or before 3 January 2028 is 31 December 2027: it is listed first, so the date is its own.
    [Fact]
    public void Holiday_OfJanuaryThatFallsIntoDecember_KeepsItsPlaceInTheList()
    {
        var calendar = Calendar("""
            holidays:
              - { name: First Friday, rule: weekdayOnOrBefore, weekday: friday, date: 01-03, dayType: weekend }
              - { name: Year's End, rule: fixedDate, date: 12-31, dayType: weekend }
            """);

        Assert.Equal("First Friday", calendar.ObservedHolidays(new(2027, 12, 31), new(2027, 12, 31)).Single().Holiday.Name);
    }

    // Dates of Easter Sunday from the US Naval Observatory's list (aa.usno.navy.mil/data/easter).
    [Theory]
    [InlineData(2000, 4, 23)]
    [InlineData(2008, 3, 23)]
    [InlineData(2019, 4, 21)]
    [InlineData(2024, 3, 31)]
    [InlineData(2025, 4, 20)]
    [InlineData(2026, 4, 5)]
    [InlineData(2038, 4, 25)]
    public void Easter_OfAYear_IsTheListedDate(int year, int month, int day) =>
        Assert.Equal([new LocalDate(year, month, day)], new EasterRule(0).InYear(year));

    [Fact]
    public void NthWeekday_FifthThatDoesNotExist_GivesNoHoliday() =>
        Assert.Empty(new NthWeekdayRule(5, IsoDayOfWeek.Monday, 2).InYear(2026));

    [Fact]
    public void NthWeekday_OffsetIntoTheNextMonth_IsKept() =>
        Assert.Equal([new LocalDate(2026, 12, 1)], new NthWeekdayRule(5, IsoDayOfWeek.Monday, 11, 1).InYear(2026));

    private static RateCalendar Calendar(string body) => Plans.Of(Week + body + "\nenergyCharges:\n  - { name: Energy, pricePerKwh: 0.1 }\n").Calendar;

    private static Instant At(int year, int month, int day, string time)
    {
        var parts = time.Split(':');
        return Instant.FromUtc(year, month, day, int.Parse(parts[0], null), int.Parse(parts[1], null));
    }
}
