using NodaTime;
using ScheduleOpt.Tariffs.Calendars;

namespace ScheduleOpt.Tariffs.Tests.Published;

// Bluewater Power, time-of-use holiday schedule of the Ontario Energy Board for 2017:
// bluewaterpower.com/index.php/residential-top/smart-meters/time-of-use-rates. A holiday on a weekend is off-peak on the next weekday.
public class OntarioHolidayTests
{
    private static readonly RateCalendar Calendar = Plans.Of("""
        timeZone: America/Toronto
        dayTypes:
          - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
          - { name: weekend, days: [saturday, sunday] }
        holidays:
          - { name: New Year's Day, rule: fixedDate, date: 01-01, dayType: weekend, saturdayMovesTo: nextFreeWeekday, sundayMovesTo: nextFreeWeekday }
          - { name: Family Day, rule: nthWeekday, nth: 3, weekday: monday, month: 2, dayType: weekend }
          - { name: Good Friday, rule: easter, offsetDays: -2, dayType: weekend }
          - { name: Victoria Day, rule: weekdayOnOrBefore, weekday: monday, date: 05-24, dayType: weekend }
          - { name: Canada Day, rule: fixedDate, date: 07-01, dayType: weekend, saturdayMovesTo: nextFreeWeekday, sundayMovesTo: nextFreeWeekday }
          - { name: Civic Holiday, rule: nthWeekday, nth: 1, weekday: monday, month: 8, dayType: weekend }
          - { name: Labour Day, rule: nthWeekday, nth: 1, weekday: monday, month: 9, dayType: weekend }
          - { name: Thanksgiving Day, rule: nthWeekday, nth: 2, weekday: monday, month: 10, dayType: weekend }
          - { name: Christmas Day, rule: fixedDate, date: 12-25, dayType: weekend, saturdayMovesTo: nextFreeWeekday, sundayMovesTo: nextFreeWeekday }
          - { name: Boxing Day, rule: fixedDate, date: 12-26, dayType: weekend, saturdayMovesTo: nextFreeWeekday, sundayMovesTo: nextFreeWeekday }
        periods: [on-peak, off-peak]
        windows:
          - { period: on-peak, dayTypes: [weekday], from: 07:00, to: 19:00 }
        defaultPeriod: off-peak
        energyCharges:
          - { name: Energy, pricePerKwh: 0.1 }
        """).Calendar;

    [Fact]
    public void Year2017_ObservedDays_AreThePublishedTen() =>
        Assert.Equal(
            ["01-02", "02-20", "04-14", "05-22", "07-03", "08-07", "09-04", "10-09", "12-25", "12-26"],
            Observed(2017));

    // Not published: the chains that the rule makes. 25 December 2021 is a Saturday and 26 a Sunday; in 2022 Christmas is a Sunday and the Monday
    // after it is Boxing Day itself.
    [Theory]
    [InlineData(2021, "12-27", "12-28")]
    [InlineData(2022, "12-26", "12-27")]
    [InlineData(2020, "12-25", "12-28")]
    public void ChristmasAndBoxingDay_OnAWeekend_TakeTheNextFreeWeekdays(int year, string first, string second) =>
        Assert.Equal([first, second], Observed(year)[^2..]);

    [Fact]
    public void CanadaDay2017_ObservedOnMonday_IsOffPeakAllDay()
    {
        var zone = Calendar.Zone;

        Assert.Equal("off-peak", Calendar.PeriodAt(new LocalDateTime(2017, 7, 3, 12, 0).InZoneStrictly(zone).ToInstant()));
        Assert.Equal("on-peak", Calendar.PeriodAt(new LocalDateTime(2017, 7, 4, 12, 0).InZoneStrictly(zone).ToInstant()));
    }

    private static string[] Observed(int year) =>
        [.. Calendar.ObservedHolidays(new(year, 1, 1), new(year, 12, 31)).Select(h => $"{h.Date.Month:00}-{h.Date.Day:00}")];
}
