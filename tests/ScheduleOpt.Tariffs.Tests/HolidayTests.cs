using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// Where holidays are observed, by the rules of tariffs/README.md. 2027: 25 December is a Saturday, 26 a Sunday; 2022: 25 a Sunday, 26 a Monday.
public class HolidayTests
{
    private const string Week = "dayTypes: [ { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }, { name: weekend, days: [saturday, sunday] } ]\n";

    private const string Christmas = """
        { name: Christmas, rule: fixedDate, date: 12-25, dayType: weekend, saturdayMovesTo: nextFreeWeekday, sundayMovesTo: nextFreeWeekday },
        { name: Day after, rule: fixedDate, date: 12-26, dayType: weekend, saturdayMovesTo: nextFreeWeekday, sundayMovesTo: nextFreeWeekday }
        """;

    // England's bank holidays (gov.uk/bank-holidays): 27 and 28 December 2021 and 2027, 26 and 27 December 2022, 25 and 28 December 2020.
    [Theory]
    [InlineData(2021, "Christmas 2021-12-27, Day after 2021-12-28")]
    [InlineData(2027, "Christmas 2027-12-27, Day after 2027-12-28")]
    [InlineData(2022, "Day after 2022-12-26, Christmas 2022-12-27")]
    [InlineData(2020, "Christmas 2020-12-25, Day after 2020-12-28")]
    public void NextFreeWeekday_AtChristmas_IsTheListedDay(int year, string expected) => Assert.Equal(expected, Observed(Christmas, year));

    // "In order of their own dates, then of the list"; a holiday placed first keeps its day.
    [Theory]
    [InlineData("{ name: A, rule: fixedDate, date: 01-02, dayType: weekend, sundayMovesTo: nextFreeWeekday }, { name: B, rule: fixedDate, date: 01-01, dayType: weekend, saturdayMovesTo: nextFreeWeekday }", "B 2028-01-03, A 2028-01-04")]
    [InlineData("{ name: A, rule: fixedDate, date: 01-01, dayType: weekend, saturdayMovesTo: nextFreeWeekday }, { name: B, rule: fixedDate, date: 01-03, dayType: weekend }", "B 2028-01-03, A 2028-01-04")]
    [InlineData("{ name: A, rule: fixedDate, date: 01-01, dayType: weekend, saturdayMovesTo: monday }, { name: B, rule: fixedDate, date: 01-03, dayType: weekend }", "A 2028-01-03")]
    [InlineData("{ name: B, rule: fixedDate, date: 01-03, dayType: weekend }, { name: A, rule: fixedDate, date: 01-01, dayType: weekend, saturdayMovesTo: monday }", "B 2028-01-03")]
    [InlineData("{ name: A, rule: fixedDate, date: 01-01, dayType: weekend, saturdayMovesTo: monday }, { name: B, rule: fixedDate, date: 01-02, dayType: weekend, sundayMovesTo: nextFreeWeekday }", "A 2028-01-03, B 2028-01-04")]
    [InlineData("{ name: A, rule: fixedDate, date: 01-07, dayType: weekend, saturdayMovesTo: friday }", "A 2028-01-07")]
    [InlineData("{ name: A, rule: fixedDate, date: 01-08, dayType: weekend, saturdayMovesTo: friday }", "A 2028-01-07")]
    [InlineData("{ name: A, rule: fixedDate, date: 01-08, dayType: weekend, saturdayMovesTo: nextFreeWeekday }", "A 2028-01-10")]
    [InlineData("{ name: A, rule: fixedDate, date: 01-09, dayType: weekend, saturdayMovesTo: friday }", "A 2028-01-09")]
    [InlineData("{ name: A, rule: dates, dates: [2028-01-05, 2029-01-06], dayType: weekend }", "A 2028-01-05")]
    [InlineData("{ name: A, rule: fixedDate, date: 02-29, dayType: weekend }", "A 2028-02-29")]
    [InlineData("{ name: A, rule: easter, offsetDays: 1, dayType: weekend }", "A 2028-04-17")]
    public void Holidays_Of2028_AreObservedByTheRules(string holidays, string expected) => Assert.Equal(expected, Observed(holidays, 2028));

    // "A fixedDate of 02-29 in a common year is no holiday that year."
    [Fact]
    public void LeapDay_InACommonYear_IsNoHoliday() => Assert.Equal("", Observed("{ name: A, rule: fixedDate, date: 02-29, dayType: weekend }", 2027));

    // Thanksgiving and Memorial Day of 2026 (5 U.S.C. 6103: fourth Thursday in November, last Monday in May), Labor Day, the day after Thanksgiving, and Victoria Day
    // (the Monday before 25 May).
    [Theory]
    [InlineData("rule: nthWeekday, nth: 4, weekday: thursday, month: 11", "A 2026-11-26")]
    [InlineData("rule: nthWeekday, nth: 4, weekday: thursday, month: 11, offsetDays: 1", "A 2026-11-27")]
    [InlineData("rule: nthWeekday, nth: 1, weekday: monday, month: 9", "A 2026-09-07")]
    [InlineData("rule: nthWeekday, nth: 1, weekday: sunday, month: 11", "A 2026-11-01")]
    [InlineData("rule: nthWeekday, nth: 5, weekday: monday, month: 8", "A 2026-08-31")]
    [InlineData("rule: weekdayOnOrBefore, weekday: monday, date: 05-31", "A 2026-05-25")]
    [InlineData("rule: weekdayOnOrBefore, weekday: monday, date: 05-24", "A 2026-05-18")]
    [InlineData("rule: weekdayOnOrBefore, weekday: monday, date: 05-25", "A 2026-05-25")]
    [InlineData("rule: weekdayOnOrBefore, weekday: sunday, date: 05-25", "A 2026-05-24")]
    public void Rule_Of2026_IsTheListedDate(string rule, string expected) => Assert.Equal(expected, Observed($"{{ name: A, {rule}, dayType: weekend }}", 2026));

    [Fact]
    public void Range_HoldsBothEnds()
    {
        var calendar = Plans.Of(Body("{ name: A, rule: fixedDate, date: 03-04, dayType: weekend }")).Calendar;
        LocalDate day = new(2026, 3, 4);

        Assert.Single(calendar.ObservedHolidays(day, day));
        Assert.Empty(calendar.ObservedHolidays(day.PlusDays(1), day.PlusDays(9)));
        Assert.Empty(calendar.ObservedHolidays(day.PlusDays(-9), day.PlusDays(-1)));
        Assert.Equal([day, day.PlusYears(1), day.PlusYears(2)], calendar.ObservedHolidays(day, day.PlusYears(2)).Select(h => h.Date));
    }

    private static string Body(string holidays) => $"{Week}holidays: [ {holidays} ]\nenergyCharges: [ {{ name: Energy, pricePerKwh: 0.1 }} ]";

    private static string Observed(string holidays, int year) => string.Join(
        ", ", Plans.Of(Body(holidays)).Calendar.ObservedHolidays(new(year, 1, 1), new(year, 12, 31)).Select(h => $"{h.Holiday.Name} {h.Date.ToString("uuuu-MM-dd", null)}"));
}
