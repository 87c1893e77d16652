using NodaTime;
using ScheduleOpt.Interchange.Calendars;
using static ScheduleOpt.Interchange.Tests.Calendars.Ics;

namespace ScheduleOpt.Interchange.Tests.Calendars;

public sealed class TripRecurrenceTests
{
    private static readonly LocalDateTime Leaves = new(2026, 1, 5, 7, 10, 0);

    [Fact]
    public void Expand_Weekdays_LeavesOutTheExceptDates()
    {
        var instances = Expand("FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR;COUNT=5", Leaves, Leaves.PlusHours(10), [new LocalDate(2026, 1, 7)]).Value.Instances;

        Assert.Equal([5, 6, 8, 9], instances.Select(i => i.Departure.Shown.Day));
    }

    [Fact]
    public void Expand_OvernightAcrossTheChange_ReturnsAtTheSameClockTime()
    {
        var night = new LocalDateTime(2026, 3, 6, 22, 0, 0);
        var instances = Expand("FREQ=DAILY;COUNT=2", night, night.PlusHours(9), []).Value.Instances;

        Assert.All(instances, i => Assert.Equal(new LocalTime(7, 0), i.Return.Shown.TimeOfDay));
        Assert.Equal([9, 8], instances.Select(i => (int)(i.Return.Instant - i.Departure.Instant).TotalHours));
    }

    [Fact]
    public void Expand_DepartureSkippedByTheClocks_IsKeptWithAWarning()
    {
        var early = new LocalDateTime(2026, 3, 7, 2, 30, 0);
        var read = Expand("FREQ=DAILY;COUNT=2", early, early.PlusHours(5), []).Value;

        Assert.Equal(Utc("2026-03-08T07:00"), read.Instances[1].Departure.Instant);
        Assert.Equal(new LocalDateTime(2026, 3, 8, 3, 30), read.Instances[1].ShownDeparture);
        Assert.Single(read.Warnings);
    }

    [Fact]
    public void Expand_AndTheSameTripAsAnEvent_Agree()
    {
        const string rule = "FREQ=WEEKLY;INTERVAL=2;BYDAY=MO,SA";
        var instances = Expand(rule, Leaves, Leaves.PlusHours(3), []).Value.Instances;
        var trips = Trips(Trip("DTSTART:20260105T071000", "DTEND:20260105T101000", $"RRULE:{rule}"));

        Assert.Equal(52, trips.Length);
        Assert.Equal(trips.Select(t => (t.Departure, t.Return)), instances.Select(i => (i.Departure.Instant, i.Return.Instant)));
    }

    [Theory]
    [InlineData("FREQ=HOURLY")]
    [InlineData("RRULE:FREQ=DAILY")]
    [InlineData("FREQ=DAILY;BYHOUR=7,8")]
    public void Expand_RuleOutsideTheLimits_NamesThePointer(string rule) =>
        Assert.Equal("#/calendar/trips/0/recurrence", Expand(rule, Leaves, Leaves.PlusHours(1), []).Faults[0].Pointer);

    [Fact]
    public void Expand_ReturnBeforeDeparture_IsAFault() => Assert.False(Expand("FREQ=DAILY", Leaves, Leaves.PlusHours(-1), []).IsRead);

    [Fact]
    public void Expand_SpanOver400Days_IsAFault() =>
        Assert.False(TripRecurrence.Expand("FREQ=DAILY", Leaves, Leaves.PlusHours(1), [], NewYork, From, From + Duration.FromDays(401)).IsRead);

    private static Reading<RecurringTimes> Expand(string rule, LocalDateTime departure, LocalDateTime back, LocalDate[] except) =>
        TripRecurrence.Expand(rule, departure, back, except, NewYork, From, Until, "#/calendar/trips/0/recurrence");
}
