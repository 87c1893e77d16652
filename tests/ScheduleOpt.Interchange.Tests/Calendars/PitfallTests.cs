using System.Text;
using NodaTime;
using ScheduleOpt.Interchange.Calendars;
using static ScheduleOpt.Interchange.Tests.Calendars.Ics;

namespace ScheduleOpt.Interchange.Tests.Calendars;

/// <summary>The known traps of RFC 5545, one after the other.</summary>
public sealed class PitfallTests
{
    [Fact]
    public void Departure_LocalTimeTwice_IsTheFirst()
    {
        // RFC 5545, 3.3.5: the first occurrence. 01:30 EDT = 05:30Z.
        var reading = Read(Trip("DTSTART;TZID=America/New_York:20261101T013000", "DURATION:PT5H")).Value;

        Assert.Equal(Utc("2026-11-01T05:30"), reading.Trips[0].Departure);
        Assert.Contains(reading.Warnings, w => w.Contains("occurs twice", StringComparison.Ordinal));
    }

    [Fact]
    public void Return_LocalTimeTwice_IsTheSecond()
    {
        // Our rule, not the RFC's: never thought to be home too soon. 01:30 EST = 06:30Z.
        var trip = Assert.Single(Trips(Trip("DTSTART;TZID=America/New_York:20261031T200000", "DTEND;TZID=America/New_York:20261101T013000")));

        Assert.Equal(Utc("2026-11-01T06:30"), trip.Return);
    }

    [Fact]
    public void Departure_LocalTimeSkipped_IsDueAtTheGapAndShownShifted()
    {
        // RFC 5545, 3.3.5, reads 02:30 as 03:30 EDT; the car is to be ready when the clocks jump, 07:00Z.
        var reading = Read(Trip("DTSTART;TZID=America/New_York:20260308T023000", "DTEND;TZID=America/New_York:20260308T090000")).Value;

        Assert.Equal(Utc("2026-03-08T07:00"), reading.Trips[0].Departure);
        Assert.Equal(new LocalDateTime(2026, 3, 8, 3, 30), reading.Trips[0].ShownDeparture);
        Assert.Contains(reading.Warnings, w => w.Contains("clocks skip", StringComparison.Ordinal));
    }

    [Fact]
    public void Departure_SkippedInAnotherZone_IsShownByTheHouseholdsClock()
    {
        // Denver jumps from 02:00 to 03:00 MDT at 09:00Z; 03:30 MDT is 05:30 EDT.
        var trip = Assert.Single(Trips(Trip("DTSTART;TZID=America/Denver:20260308T023000", "DURATION:PT3H")));

        Assert.Equal(Utc("2026-03-08T09:00"), trip.Departure);
        Assert.Equal(new LocalDateTime(2026, 3, 8, 5, 30), trip.ShownDeparture);
    }

    [Fact]
    public void Rule_InstanceSkippedByTheClocks_IsKeptAndShifted()
    {
        // RFC 5545, 3.3.10, would leave the instance out; a trip that is driven must not be lost.
        var reading = Read(Trip("DTSTART;TZID=America/New_York:20260307T023000", "DTEND;TZID=America/New_York:20260307T050000", "RRULE:FREQ=DAILY;COUNT=3")).Value;

        Assert.Equal(
            [Utc("2026-03-07T07:30"), Utc("2026-03-08T07:00"), Utc("2026-03-09T06:30")],
            reading.Trips.Select(t => t.Departure));
        Assert.Equal([null, new LocalDateTime(2026, 3, 8, 3, 30), null], reading.Trips.Select(t => t.ShownDeparture));
        Assert.Single(reading.Warnings);
    }

    [Fact]
    public void End_ByDtendAcrossTheChange_RepeatsTheExactDuration()
    {
        // RFC 5545, 3.8.5.3. 22:00 to 22:00 is 24 h; on 7 March it ends at 23:00 EDT of the 8th.
        var trips = Trips(Trip("DTSTART;TZID=America/New_York:20260301T220000", "DTEND;TZID=America/New_York:20260302T220000", "RRULE:FREQ=DAILY;INTERVAL=6;COUNT=2"));

        Assert.Equal(Utc("2026-03-09T03:00"), trips[1].Return);
        Assert.Equal(Duration.FromHours(24), trips[1].Return - trips[1].Departure);
    }

    [Fact]
    public void End_ByDurationInDaysAcrossTheChange_RepeatsTheNominalDuration()
    {
        // RFC 5545, 3.8.5.3 and 3.3.6: P1D is nominal, 23 h on that day.
        var trips = Trips(Trip("DTSTART;TZID=America/New_York:20260301T220000", "DURATION:P1D", "RRULE:FREQ=DAILY;INTERVAL=6;COUNT=2"));

        Assert.Equal(Utc("2026-03-09T02:00"), trips[1].Return);
        Assert.Equal(Duration.FromHours(23), trips[1].Return - trips[1].Departure);
    }

    [Fact]
    public void End_ByDurationInHours_IsExact()
    {
        // RFC 5545, 3.3.6: hours are accurate durations.
        var trip = Assert.Single(Trips(Trip("DTSTART;TZID=America/New_York:20260307T220000", "DURATION:PT9H")));

        Assert.Equal(Utc("2026-03-08T12:00"), trip.Return);
    }

    [Theory]
    [InlineData("20260109T123000Z", 5)]
    [InlineData("20260109T122959Z", 4)]
    [InlineData("20260109", 5)]
    [InlineData("20260109T073000", 5)]
    public void Until_TheLastInstance_IsIncluded(string until, int expected)
    {
        // RFC 5545, 3.3.10: UNTIL bounds the rule inclusively. 07:30 EST = 12:30Z.
        var trips = Trips(Trip("DTSTART;TZID=America/New_York:20260105T073000", "DURATION:PT10H", $"RRULE:FREQ=DAILY;UNTIL={until}"));

        Assert.Equal(expected, trips.Length);
    }

    [Fact]
    public void Until_LocalTimeWithAForeignStart_IsReadThereWithAWarning()
    {
        // RFC 5545, 3.3.10: with a zone UNTIL must be in UTC.
        var reading = Read(Trip("DTSTART;TZID=America/Denver:20260105T073000", "DURATION:PT10H", "RRULE:FREQ=DAILY;UNTIL=20260109T073000")).Value;

        Assert.Equal(5, reading.Trips.Count);
        Assert.Contains(reading.Warnings, w => w.Contains("UNTIL", StringComparison.Ordinal));
    }

    [Fact]
    public void Fold_InsideACharacter_IsJoinedBeforeItIsDecoded()
    {
        // RFC 5545, 3.1: lines fold at 75 octets, which may split a character of UTF-8.
        var octets = new List<byte>(Encoding.UTF8.GetBytes(Trip("DTSTART:20260105T073000", "DURATION:PT1H", "DESCRIPTION:x").Replace("Commute", "Zür", StringComparison.Ordinal)));
        var split = octets.IndexOf(0xC3) + 1;
        octets.InsertRange(split, "\r\n "u8.ToArray());

        var reading = CalendarText.Read(octets.ToArray(), NewYork, From, Until, new CalendarReadingOptions());

        Assert.Equal("Zür", reading.Value.Trips[0].Label);
    }

    [Fact]
    public void Fold_WithATabAndBareLineFeeds_IsJoined() =>
        Assert.Equal(64, Trips(Trip("DTSTART:2026\r\n\t0105T073000", "DURATION:PT1H").Replace("\r\n", "\n", StringComparison.Ordinal))[0].Distance.Kilometres);

    [Fact]
    public void Text_Escapes_AreTakenOff()
    {
        // RFC 5545, 3.3.11; CATEGORIES is a list, SUMMARY is not.
        var ics = Calendar(Event("DTSTART:20260105T073000", "DURATION:PT1H", @"SUMMARY:Office\, north\; gate\\2", @"CATEGORIES:WORK,A\,B,driving", @"DESCRIPTION:one\n70 km"));

        var trip = Assert.Single(Trips(ics));

        Assert.Equal(@"Office, north; gate\2", trip.Label);
        Assert.Equal(70, trip.Distance.Kilometres);
    }

    [Fact]
    public void Category_InsideAnEscapedComma_IsNotAMark() =>
        Assert.Contains(
            "not marked",
            Read(Calendar(
                Event("DTSTART:20260105T073000", "DURATION:PT1H", @"CATEGORIES:NOT\,DRIVING"),
                Event("DTSTART:20260106T073000", "DURATION:PT1H", "SUMMARY:30 km"))).Value.Ignored[0].Reason,
            StringComparison.Ordinal);

    [Theory]
    [InlineData("Eastern Standard Time")]
    [InlineData("/example.org/20260101/America/New_York")]
    [InlineData("US/Eastern")]
    public void Tzid_OtherNamesOfAZone_AreFound(string tzid) =>
        Assert.Equal(Utc("2026-01-05T12:30"), Trips(Trip($"DTSTART;TZID={tzid}:20260105T073000", "DURATION:PT1H"))[0].Departure);

    [Fact]
    public void Tzid_Unknown_IsRefusedByName()
    {
        var fault = Fault(Trip("DTSTART;TZID=\"Middle/Earth\":20260105T073000", "DURATION:PT1H"));

        Assert.Equal("Middle/Earth", fault.Value);
        Assert.Equal(5, fault.Line);
    }

    [Fact]
    public void Floating_Time_IsInTheHouseholdsZone() =>
        Assert.Equal(Utc("2026-07-06T11:30"), Trips(Trip("DTSTART:20260706T073000", "DURATION:PT1H"))[0].Departure);

    [Fact]
    public void Utc_Rule_RecursInUtc() =>
        Assert.Equal(
            [Utc("2026-03-07T12:30"), Utc("2026-03-08T12:30")],
            Trips(Trip("DTSTART:20260307T123000Z", "DURATION:PT1H", "RRULE:FREQ=DAILY;COUNT=2")).Select(t => t.Departure));

    [Fact]
    public void AllDay_Event_IsADrivingDayWithAnExclusiveEnd()
    {
        var reading = Read(Trip("DTSTART;VALUE=DATE:20260314", "DTEND;VALUE=DATE:20260316")).Value;

        Assert.Equal(Utc("2026-03-14T12:00"), reading.Trips[0].Departure);
        Assert.Equal(Utc("2026-03-15T22:00"), reading.Trips[0].Return);
        Assert.Contains(reading.Warnings, w => w.Contains("no clock times", StringComparison.Ordinal));
    }

    [Fact]
    public void AllDay_RecurringWithAnException_LeavesTheDateOut() =>
        Assert.Equal(
            [5, 7],
            Trips(Trip("DTSTART;VALUE=DATE:20260105", "RRULE:FREQ=DAILY;COUNT=3", "EXDATE;VALUE=DATE:20260106"))
                .Select(t => t.Departure.InZone(NewYork.Zone).Day));

    [Fact]
    public void RecurrenceId_WithoutItsMaster_IsASingleTrip() =>
        Assert.Equal(
            Utc("2026-03-09T09:30"),
            Assert.Single(Trips(Trip("RECURRENCE-ID;TZID=America/New_York:20260309T073000", "DTSTART;TZID=America/New_York:20260309T053000", "DURATION:PT1H"))).Departure);

    [Theory]
    [InlineData("FREQ=SECONDLY")]
    [InlineData("FREQ=MINUTELY;COUNT=2")]
    [InlineData("FREQ=HOURLY;INTERVAL=24")]
    [InlineData("FREQ=DAILY;BYHOUR=7,19")]
    [InlineData("FREQ=DAILY;BYMINUTE=0,15,30")]
    [InlineData("FREQ=DAILY;BYSECOND=1")]
    [InlineData("FREQ=DAILY;INTERVAL=0")]
    [InlineData("FREQ=DAILY;COUNT=10001")]
    [InlineData("FREQ=DAILY;COUNT=5;UNTIL=20260110")]
    [InlineData("FREQ=DAILY;FREQ=DAILY")]
    [InlineData("FREQ=WEEKLY;BYDAY=2MO")]
    [InlineData("FREQ=MONTHLY;BYYEARDAY=100")]
    [InlineData("FREQ=MONTHLY;BYMONTHDAY=32")]
    [InlineData("FREQ=YEARLY;BYSETPOS=1")]
    [InlineData("FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30")]
    [InlineData("FREQ=DAILY;RSCALE=GREGORIAN")]
    [InlineData("FREQ")]
    [InlineData("")]
    public void Rule_OutsideTheLimits_IsRefusedWithItsLine(string rule)
    {
        var fault = Fault(Trip("DTSTART:20260105T073000", "DURATION:PT1H", $"RRULE:{rule}"));

        Assert.Equal(7, fault.Line);
        Assert.Equal("#/calendar/ics", fault.Pointer);
    }

    [Fact]
    public void Rule_RepeatingTheTimeOfItsStart_IsTaken() =>
        Assert.Equal(2, Trips(Trip("DTSTART:20260105T073000", "DURATION:PT1H", "RRULE:FREQ=DAILY;COUNT=2;BYHOUR=7;BYMINUTE=30;BYSECOND=0")).Length);

    [Fact]
    public void Rule_ASecond_IsRefused() =>
        Assert.Contains(
            "at most one RRULE",
            Fault(Trip("DTSTART:20260105T073000", "DURATION:PT1H", "RRULE:FREQ=DAILY", "RRULE:FREQ=WEEKLY")).Rule,
            StringComparison.Ordinal);
}
