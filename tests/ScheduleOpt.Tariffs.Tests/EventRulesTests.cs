using NodaTime;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Tests;

// Events that the plan's own rules don't allow are billed, and the bill says so. Within the limits nothing is said; one step beyond is.
public class EventRulesTests
{
    private const string Calendar = """
        seasons: [ { name: summer, ranges: [ { from: 06-01, to: 09-30 } ] }, { name: winter, ranges: [ { from: 10-01, to: 05-31 } ] } ]
        dayTypes: [ { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }, { name: weekend, days: [saturday, sunday] } ]
        holidays: [ { name: Independence Day, rule: fixedDate, date: 07-04, dayType: weekend, saturdayMovesTo: friday, sundayMovesTo: monday } ]
        energyCharges: [ { name: A, pricePerKwh: 0.1 } ]

        """;

    // 1 July 2026 is a Wednesday; the holiday is observed on Friday the 3rd.
    [Theory]
    [InlineData("seasons: [summer]", "2026-07-01T14:00", "2026-07-01T18:00", true)]
    [InlineData("seasons: [summer]", "2026-10-01T14:00", "2026-10-01T18:00", false)]
    [InlineData("dayTypes: [weekday]", "2026-07-01T14:00", "2026-07-01T18:00", true)]
    [InlineData("dayTypes: [weekday]", "2026-07-05T14:00", "2026-07-05T18:00", false)]
    [InlineData("dayTypes: [weekday]", "2026-07-03T14:00", "2026-07-03T18:00", false)]
    [InlineData("dayTypes: [weekend]", "2026-07-03T14:00", "2026-07-03T18:00", true)]
    [InlineData("notOnHolidays: true", "2026-07-03T14:00", "2026-07-03T18:00", false)]
    [InlineData("notOnHolidays: true", "2026-07-02T14:00", "2026-07-02T18:00", true)]
    [InlineData("notOnHolidays: false", "2026-07-03T14:00", "2026-07-03T18:00", true)]
    [InlineData("notOn: [07-01]", "2026-07-01T14:00", "2026-07-01T18:00", false)]
    [InlineData("notOn: [07-01]", "2026-07-02T14:00", "2026-07-02T18:00", true)]
    [InlineData("windows: [ { from: 14:00, to: 18:00 } ]", "2026-07-01T14:00", "2026-07-01T18:00", true)]
    [InlineData("windows: [ { from: 14:00, to: 18:00 } ]", "2026-07-01T13:59", "2026-07-01T18:00", false)]
    [InlineData("windows: [ { from: 14:00, to: 18:00 } ]", "2026-07-01T14:00", "2026-07-01T18:01", false)]
    [InlineData("windows: [ { from: 14:00, to: 18:00 } ]", "2026-07-01T17:00", "2026-07-02T15:00", false)]
    [InlineData("windows: [ { from: 02:00, to: 04:00 }, { from: 14:00, to: 18:00 } ]", "2026-07-01T14:00", "2026-07-01T18:00", true)]
    [InlineData("windows: [ { from: 22:00, to: 06:00 } ]", "2026-07-01T22:00", "2026-07-02T06:00", true)]
    [InlineData("windows: [ { from: 22:00, to: 06:00 } ]", "2026-07-01T22:00", "2026-07-02T06:01", false)]
    [InlineData("windows: [ { from: 22:00, to: 06:00 } ]", "2026-07-01T21:59", "2026-07-01T23:00", false)]
    public void Event_OutsideItsHours_IsNamed(string allowed, string from, string to, bool isAllowed)
    {
        var plan = Plans.Of($"{Calendar}events: [ {{ name: Event, allowed: {{ {allowed} }}, past: [ {{ from: {from}, to: {to} }} ] }} ]");

        Assert.Equal(
            isAllowed ? [] : [$"the event of {from.Replace('T', ' ')} lies outside the hours in which it may be called."],
            EventRules.Broken(plan, plan.Events[0], plan.Events[0].Past));
    }

    [Theory]
    [InlineData("hoursPerEvent: 4", new[] { "07-01T14:00", "07-01T18:00" }, null)]
    [InlineData("hoursPerEvent: 3.9", new[] { "07-01T14:00", "07-01T18:00" }, "the event of 2026-07-01 14:00 is longer than 3.9 h.")]
    [InlineData("eventsPerDay: 2", new[] { "07-01T14:00", "07-01T15:00", "07-01T16:00", "07-01T17:00", "07-02T14:00", "07-02T15:00" }, null)]
    [InlineData("eventsPerDay: 1", new[] { "07-01T14:00", "07-01T15:00", "07-01T16:00", "07-01T17:00" }, "more than 1 events on 2026-07-01.")]
    [InlineData("eventsPerYear: 2", new[] { "07-01T14:00", "07-01T15:00", "07-02T16:00", "07-02T17:00" }, null)]
    [InlineData("eventsPerYear: 1", new[] { "07-01T14:00", "07-01T15:00", "07-02T16:00", "07-02T17:00" }, "more than 1 events in 2026.")]
    [InlineData("hoursPerYear: 2", new[] { "07-01T14:00", "07-01T15:00", "07-02T16:00", "07-02T17:00" }, null)]
    [InlineData("hoursPerYear: 1.9", new[] { "07-01T14:00", "07-01T15:00", "07-02T16:00", "07-02T17:00" }, "more than 1.9 h of events in 2026.")]
    public void Events_MoreThanTheLimits_AreNamed(string limits, string[] times, string? sentence)
    {
        var past = string.Join(", ", times.Chunk(2).Select(t => $"{{ from: 2026-{t[0]}, to: 2026-{t[1]} }}"));
        var plan = Plans.Of($"{Calendar}events: [ {{ name: Event, limits: {{ {limits} }}, past: [ {past} ] }} ]");

        Assert.Equal(sentence is null ? [] : [sentence], EventRules.Broken(plan, plan.Events[0], plan.Events[0].Past));
        var bill = Biller.Bill(plan, Plans.OneMonth(1));
        Assert.Equal(sentence is null ? [] : [$"Event: {sentence}"], bill.Warnings);
    }

    // Days and seasons are those of the event's own calendar.
    [Fact]
    public void Event_OnACalendarOfItsOwn_FollowsIt()
    {
        var plan = Plans.Of($$"""
            {{Calendar}}calendars: [ { name: own, periods: [a], defaultPeriod: a, seasons: [ { name: hot, ranges: [ { from: 07-01, to: 07-31 } ] }, { name: cold, ranges: [ { from: 08-01, to: 06-30 } ] } ] } ]
            events: [ { name: Event, calendar: own, allowed: { seasons: [hot] }, past: [ { from: 2026-07-31T14:00, to: 2026-07-31T15:00 }, { from: 2026-08-01T14:00, to: 2026-08-01T15:00 } ] } ]
            """);

        Assert.StartsWith("the event of 2026-08-01 14:00", Assert.Single(EventRules.Broken(plan, plan.Events[0], plan.Events[0].Past)), StringComparison.Ordinal);
    }

    // Events that overlap: the one listed first keeps its hours, the second has what is left on both sides and between. Hand-made.
    [Fact]
    public void Events_ThatOverlap_FillTheGapsOfThoseBefore()
    {
        var plan = Plans.Of("""
            periods: [rest, one, two]
            defaultPeriod: rest
            energyCharges: [ { name: Rest, periods: [rest], pricePerKwh: 1 }, { name: One, periods: [one], pricePerKwh: 10 }, { name: Two, periods: [two], pricePerKwh: 100 } ]
            events:
              - { name: First, period: one, past: [ { from: 2026-01-01T02:00, to: 2026-01-01T04:00 }, { from: 2026-01-01T06:00, to: 2026-01-01T08:00 } ] }
              - { name: Second, period: two, past: [ { from: 2026-01-01T01:00, to: 2026-01-01T09:00 }, { from: 2026-01-01T12:00, to: 2026-01-01T13:00 }, { from: 2026-01-01T06:00, to: 2026-01-01T07:00 } ] }
            """);
        var hours = MeteredSeries.FromKilowattHours(Instant.FromUtc(2026, 1, 1, 0, 0), Duration.FromHours(1), Enumerable.Repeat(1.0, 24).ToArray());
        decimal[] byHour = [.. Enumerable.Range(0, 24).Select(h => h is 2 or 3 or 6 or 7 ? 10m : h is 1 or 4 or 5 or 8 or 12 ? 100 : 1)];

        Assert.Equal(byHour.Sum(), Biller.Bill(plan, hours).Total);
        var prices = PriceScheduleBuilder.Build(plan, hours.Start, hours.End);
        Assert.Equal(byHour, Enumerable.Range(0, 24).Select(h => prices.At(hours.Start + Duration.FromHours(h)).ImportPerKwh));
    }
}
