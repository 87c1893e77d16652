using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// "Each day of the year lies in exactly one season"; "without a default period the windows must cover each minute exactly once, and gaps and overlaps are named".
public class CoverageOfDaysTests
{
    private const string Energy = "energyCharges: [ { name: Energy, pricePerKwh: 0.1 } ]\n";
    private const string Week = "dayTypes: [ { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }, { name: weekend, days: [saturday, sunday] } ]\n";
    private const string Seasons = "seasons: [ { name: summer, ranges: [ { from: 06-01, to: 09-30 } ] }, { name: winter, ranges: [ { from: 10-01, to: 05-31 } ] } ]\n";
    private const string Covered = "Without a defaultPeriod the windows must cover each minute of each season and day type exactly once.";

    [Theory]
    [InlineData("[ { name: a, ranges: [ { from: 01-01, to: 12-30 } ] } ]", "12-31 lies in none")]
    [InlineData("[ { name: a, ranges: [ { from: 01-01, to: 02-28 }, { from: 03-01, to: 12-31 } ] } ]", "02-29 lies in none")]
    [InlineData("[ { name: a, ranges: [ { from: 01-02, to: 12-31 } ] } ]", "01-01 lies in none")]
    [InlineData("[ { name: a, ranges: [ { from: 01-01, to: 06-30 } ] }, { name: b, ranges: [ { from: 06-30, to: 12-31 } ] } ]", "06-30 lies in a, b")]
    [InlineData("[ { name: a, ranges: [ { from: 11-01, to: 03-01 } ] }, { name: b, ranges: [ { from: 03-01, to: 10-31 } ] } ]", "03-01 lies in a, b")]
    public void Seasons_ADayNeverOrTwice_IsNamed(string seasons, string found) =>
        Assert.Equal(
            ("/seasons", "Each day of the year, 29 February included, must lie in exactly one season.", found), Assert.Single(Plans.Faults($"seasons: {seasons}\n{Energy}")));

    [Theory]
    [InlineData("[monday, tuesday, wednesday, thursday, friday]", "[saturday]", "Sunday belongs to none")]
    [InlineData("[monday, tuesday, wednesday, thursday, friday, saturday]", "[saturday, sunday]", "Saturday belongs to weekday, weekend")]
    [InlineData("[tuesday, wednesday, thursday, friday]", "[saturday, sunday]", "Monday belongs to none")]
    public void DayTypes_ADayNeverOrTwice_IsNamed(string weekday, string weekend, string found)
    {
        const string Rule = "Each day of the week must belong to exactly one day type.";

        Assert.Equal(("/dayTypes", Rule, found), Assert.Single(Plans.Faults($"dayTypes: [ {{ name: weekday, days: {weekday} }}, {{ name: weekend, days: {weekend} }} ]\nholidays: []\n{Energy}")));
        Assert.Equal(("/calendars/0/dayTypes", Rule, found), Assert.Single(Plans.Faults(
            $"calendars: [ {{ name: one, periods: [x], defaultPeriod: x, dayTypes: [ {{ name: weekday, days: {weekday} }}, {{ name: weekend, days: {weekend} }} ], holidays: [] }} ]\n{Energy}")));
    }

    [Theory]
    [InlineData("{ period: a, from: 00:00, to: 12:00 }, { period: b, from: 12:30, to: 24:00 }", "season all year, day type every day: 12:00 to 12:30 is in no window")]
    [InlineData("{ period: a, from: 00:00, to: 12:30 }, { period: b, from: 12:00, to: 24:00 }", "season all year, day type every day: 12:00 to 12:30 is in windows of a and b")]
    [InlineData("{ period: a, from: 00:05, to: 12:00 }, { period: b, from: 12:00, to: 24:00 }", "season all year, day type every day: 00:00 to 00:05 is in no window")]
    [InlineData("{ period: a, from: 00:00, to: 12:00 }, { period: b, from: 12:00, to: 23:59 }", "season all year, day type every day: 23:59 to 24:00 is in no window")]
    [InlineData("{ period: a, from: 22:00, to: 06:01 }, { period: b, from: 06:00, to: 22:00 }", "season all year, day type every day: 06:00 to 06:01 is in windows of a and b")]
    public void Windows_AMinuteNeverOrTwice_IsNamed(string windows, string found)
    {
        Assert.Equal(("/windows", Covered, found), Assert.Single(Plans.Faults($"periods: [a, b]\nwindows: [ {windows} ]\n{Energy}")));
        Assert.Equal(("/calendars/0/windows", Covered, found), Assert.Single(Plans.Faults($"calendars: [ {{ name: one, periods: [a, b], windows: [ {windows} ] }} ]\n{Energy}")));
    }

    [Theory]
    [InlineData("{ period: a, from: 00:00, to: 12:00 }, { period: b, from: 12:00, to: 24:00 }")]
    [InlineData("{ period: a, from: 22:00, to: 06:00 }, { period: b, from: 06:00, to: 22:00 }")]
    [InlineData("{ period: a, from: 22:00, to: 00:00 }, { period: b, from: 00:00, to: 22:00 }")]
    public void Windows_ThatMeet_AreInOrder(string windows) => Assert.Empty(Plans.Faults($"periods: [a, b]\nwindows: [ {windows} ]\n{Energy}"));

    // Friday's night runs to 06:00 on Saturday, where the weekend begins at midnight; Sunday's weekend ends at midnight, where Monday has no night before 06:00.
    [Fact]
    public void Windows_OverMidnight_AreNamedWithTheDayBefore()
    {
        var faults = Plans.Faults($"{Week}holidays: []\nperiods: [a, b]\nwindows: [ {{ period: a, dayTypes: [weekday], from: 06:00, to: 22:00 }}, {{ period: b, dayTypes: [weekday], from: 22:00, to: 06:00 }}, {{ period: b, dayTypes: [weekend], from: 00:00, to: 24:00 }} ]\n{Energy}");

        Assert.Equal(
            [
                "season all year, day type weekday (after a day of season all year, day type weekend): 00:00 to 06:00 is in no window",
                "season all year, day type weekend (after a day of season all year, day type weekday): 00:00 to 06:00 is in windows of b and b",
            ],
            faults.Select(f => f.Found).Order(StringComparer.Ordinal));
    }

    // A gap of each season is named by itself; a border between seasons is a pair of days too.
    [Fact]
    public void Windows_OfOneSeason_AreNamedWithIt()
    {
        var faults = Plans.Faults($"{Seasons}periods: [a]\nwindows: [ {{ period: a, seasons: [summer], from: 00:00, to: 24:00 }}, {{ period: a, seasons: [winter], from: 00:00, to: 23:00 }} ]\n{Energy}");

        Assert.Equal("season winter, day type every day: 23:00 to 24:00 is in no window", Assert.Single(faults).Found);
    }

    // A holiday in the week makes pairs of days that no plain week has: the weekend's night after a weekday, and a weekday after a holiday.
    [Fact]
    public void Windows_AroundAHoliday_AreChecked()
    {
        const string Windows = "periods: [a, b]\nwindows: [ { period: a, dayTypes: [weekday, weekend], from: 00:00, to: 24:00 }, { period: b, dayTypes: [holiday], from: 00:00, to: 23:00 } ]\n";
        var types = "dayTypes: [ { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }, { name: weekend, days: [saturday, sunday] }, { name: holiday, days: [] } ]\n";

        Assert.Empty(Plans.Faults($"{types}holidays: []\nperiods: [a]\nwindows: [ {{ period: a, dayTypes: [weekday, weekend], from: 00:00, to: 24:00 }} ]\n{Energy}"));
        var faults = Plans.Faults($"{types}holidays: [ {{ name: X, rule: fixedDate, date: 03-15, dayType: holiday, saturdayMovesTo: friday, sundayMovesTo: monday }} ]\n{Windows}{Energy}");
        // The 15th lies from Tuesday to Friday in most years: the holiday is then after a weekday. It is named once, with the first pair of days that shows it.
        Assert.StartsWith("season all year, day type holiday (after a day of season all year, day type week", Assert.Single(faults).Found, StringComparison.Ordinal);
        Assert.EndsWith(": 23:00 to 24:00 is in no window", faults[0].Found, StringComparison.Ordinal);
    }
}
