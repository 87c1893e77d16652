using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Interchange.Calendars;
using static ScheduleOpt.Interchange.Tests.Calendars.Ics;

namespace ScheduleOpt.Interchange.Tests.Calendars;

public sealed class CalendarTextTests
{
    private static readonly string[] Times = ["DTSTART:20260105T073000", "DURATION:PT1H"];

    [Theory]
    [InlineData("Drive 64 km", 64)]
    [InlineData("Drive 40 miles", 64.37376)]
    [InlineData("Drive 40mi.", 64.37376)]
    [InlineData("12,5 kilometres", 12.5)]
    [InlineData("1,200 km north", 1200)]
    [InlineData("from 10 km to 64 KM", 64)]
    public void Distance_WrittenInTheSummary_IsRead(string summary, double kilometres) =>
        Assert.Equal(kilometres, Trips(Calendar(Event([.. Times, $"SUMMARY:{summary}"])))[0].Distance.Kilometres, 6);

    [Theory]
    [InlineData("Uses 15 kWh/100 km")]
    [InlineData("at 100 km/h")]
    [InlineData("12345 km")]
    [InlineData("0 km")]
    [InlineData("5 minutes")]
    public void Distance_OtherNumbers_AreNotTaken(string summary) =>
        Assert.Contains("at least one trip", Fault(Calendar(Event([.. Times, $"SUMMARY:{summary}"]))).Rule, StringComparison.Ordinal);

    [Fact]
    public void Distance_TwoNumbers_LargerWithAWarning()
    {
        var reading = Read(Calendar(Event([.. Times, "SUMMARY:64 km or 80 km"]))).Value;

        Assert.Equal(80, reading.Trips[0].Distance.Kilometres);
        Assert.Contains(reading.Warnings, w => w.Contains("more than one distance", StringComparison.Ordinal));
    }

    [Fact]
    public void Distance_OfTheProperty_WinsOverTheText() =>
        Assert.Equal(118.5, Trips(Calendar(Event([.. Times, "X-TRIP-DISTANCE;X-UNIT=mi:118.5", "SUMMARY:300 km"])))[0].Distance.Miles, 9);

    [Theory]
    [InlineData("X-TRIP-DISTANCE:64")]
    [InlineData("X-TRIP-DISTANCE;X-UNIT=m:64")]
    [InlineData("X-TRIP-DISTANCE;X-UNIT=km:-3")]
    [InlineData("X-TRIP-DISTANCE;X-UNIT=km:0")]
    [InlineData("X-TRIP-DISTANCE;X-UNIT=km:1e9")]
    [InlineData("X-TRIP-DISTANCE;X-UNIT=km:NaN")]
    [InlineData("X-TRIP-DISTANCE;X-UNIT=mi:4000")]
    public void Distance_OutsideItsRule_IsAFault(string line) => Assert.Equal(7, Fault(Calendar(Event([.. Times, line]))).Line);

    [Fact]
    public void Distance_None_TakesTheDefault()
    {
        var options = new CalendarReadingOptions { DefaultDistance = Distance.FromKilometres(33) };
        var reading = Read(Calendar(Event([.. Times, "CATEGORIES:DRIVING"])), options).Value;

        Assert.Equal(33, reading.Trips[0].Distance.Kilometres);
        Assert.Contains(reading.Warnings, w => w.Contains("default", StringComparison.Ordinal));
    }

    [Fact]
    public void Distance_NoneAndNoDefault_IsAFault() =>
        Assert.Contains("default distance", Fault(Calendar(Event([.. Times, "CATEGORIES:DRIVING"]))).Rule, StringComparison.Ordinal);

    [Fact]
    public void Events_Unmarked_AreListedWithTheReason()
    {
        var reading = Read(Calendar(Event([.. Times, "SUMMARY:Dentist"]), Event("DTSTART:20260106T073000", "DURATION:PT1H", "SUMMARY:30 km"))).Value;

        var ignored = Assert.Single(reading.Ignored);
        Assert.Equal(("Dentist", 3), (ignored.Label, ignored.Line));
        Assert.Single(reading.Trips);
    }

    [Fact]
    public void Events_AllAreTrips_TakesTheUnmarkedToo()
    {
        var options = new CalendarReadingOptions { AllEventsAreTrips = true, DefaultDistance = Distance.FromKilometres(20) };

        Assert.Equal("Dentist", Read(Calendar(Event([.. Times, "SUMMARY:Dentist"])), options).Value.Trips[0].Label);
    }

    [Fact]
    public void Events_NoneAtAll_IsRefused() => Assert.Contains("at least one trip", Fault(Calendar()).Rule, StringComparison.Ordinal);

    [Fact]
    public void Trips_AllOutsideTheSpan_AreAWarningAndNoFault()
    {
        var reading = Read(Trip("DTSTART:20200105T073000", "DURATION:PT1H")).Value;

        Assert.Empty(reading.Trips);
        Assert.Single(reading.Warnings);
    }

    [Fact]
    public void Trips_UnderWayAtTheStart_AreIncluded() =>
        Assert.Equal("Commute", Assert.Single(Trips(Trip("DTSTART:20251220T073000", "DTEND:20260103T180000"))).Label);

    [Fact]
    public void Trips_Overlapping_AreAFaultNamingBoth()
    {
        var fault = Fault(Calendar(Event([.. Times, "SUMMARY:Office 10 km"]), Event("DTSTART:20260105T080000", "DURATION:PT1H", "SUMMARY:Lake 20 km")));

        Assert.Contains("'Office 10 km'", fault.Value, StringComparison.Ordinal);
        Assert.Contains("'Lake 20 km'", fault.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Trips_BackToBack_DoNotOverlap() =>
        Assert.Equal(2, Trips(Calendar(Event([.. Times, "SUMMARY:10 km"]), Event("DTSTART:20260105T083000", "DURATION:PT1H", "SUMMARY:20 km"))).Length);

    [Fact]
    public void Rule_NotNamingItsOwnFirstDay_KeepsItWithAWarning()
    {
        // RFC 5545, 3.8.5.3, leaves such a set undefined; a trip that is written down is driven. 5 January 2026 is a Monday.
        var reading = Read(Trip("DTSTART:20260105T073000", "DURATION:PT1H", "RRULE:FREQ=WEEKLY;BYDAY=TU;COUNT=2")).Value;

        Assert.Equal([5, 6, 13], reading.Trips.Select(t => t.Departure.InZone(NewYork.Zone).Day));
        Assert.Contains(reading.Warnings, w => w.Contains("its own first day", StringComparison.Ordinal));
    }

    [Fact]
    public void Faults_OfOneEvent_StandOnce() =>
        Assert.Single(Read(Trip("DTSTART:never", "DURATION:PT1H")).Faults);

    [Fact]
    public void Exdate_AndRdate_LeaveOutAndAdd() =>
        Assert.Equal(
            [5, 7, 20],
            Trips(Trip("DTSTART;TZID=America/New_York:20260105T073000", "DURATION:PT1H", "RRULE:FREQ=DAILY;COUNT=3", "EXDATE:20260106T123000Z", "RDATE;TZID=America/New_York:20260120T090000"))
                .Select(t => t.Departure.InZone(NewYork.Zone).Day));

    [Fact]
    public void Exdate_OfTheOnlyInstance_WinsOverRdateToo() =>
        Assert.Empty(Trips(Trip("DTSTART:20260105T073000", "DURATION:PT1H", "RDATE:20260106T073000", "EXDATE:20260105T073000,20260106T073000")));

    [Fact]
    public void Instance_Moved_ReplacesTheOneItNamesAndKeepsTheSeriesDistance()
    {
        const string series = "BEGIN:VEVENT\r\nUID:series\r\nDTSTART;TZID=America/New_York:20260105T073000\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=3\r\nX-TRIP-DISTANCE;X-UNIT=km:64\r\nEND:VEVENT\r\n";
        const string moved = "BEGIN:VEVENT\r\nUID:series\r\nRECURRENCE-ID:20260106T123000Z\r\nDTSTART;TZID=America/New_York:20260106T053000\r\nDURATION:PT2H\r\nEND:VEVENT\r\n";

        var trips = Trips(Calendar(series, moved));

        Assert.Equal([Utc("2026-01-05T12:30"), Utc("2026-01-06T10:30"), Utc("2026-01-07T12:30")], trips.Select(t => t.Departure));
        Assert.All(trips, t => Assert.Equal(64, t.Distance.Kilometres));
    }

    [Fact]
    public void Instance_Cancelled_IsLeftOut()
    {
        const string series = "BEGIN:VEVENT\r\nUID:series\r\nDTSTART:20260105T073000\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=3\r\nSUMMARY:9 km\r\nEND:VEVENT\r\n";
        const string cancelled = "BEGIN:VEVENT\r\nUID:series\r\nRECURRENCE-ID:20260106T073000\r\nDTSTART:20260106T073000\r\nSTATUS:CANCELLED\r\nEND:VEVENT\r\n";

        var reading = Read(Calendar(series, cancelled)).Value;

        Assert.Equal([5, 7], reading.Trips.Select(t => t.Departure.InZone(NewYork.Zone).Day));
        Assert.Equal("It is cancelled.", Assert.Single(reading.Ignored).Reason);
    }

    [Fact]
    public void Instance_ThisAndFuture_IsRefused() =>
        Assert.Contains(
            "RANGE",
            Fault(Trip("RECURRENCE-ID;RANGE=THISANDFUTURE:20260106T073000", "DTSTART:20260105T073000", "DURATION:PT1H")).Rule,
            StringComparison.Ordinal);

    [Fact]
    public void Revisions_OfOneEvent_TheNewestWins()
    {
        static string Revision(int sequence, string hour) =>
            $"BEGIN:VEVENT\r\nUID:one\r\nSEQUENCE:{sequence}\r\nDTSTART:20260105T{hour}0000\r\nDURATION:PT1H\r\nSUMMARY:9 km\r\nEND:VEVENT\r\n";

        var reading = Read(Calendar(Revision(1, "08"), Revision(3, "10"), Revision(2, "09"))).Value;

        Assert.Equal(10, Assert.Single(reading.Trips).Departure.InZone(NewYork.Zone).Hour);
        Assert.Equal(2, reading.Ignored.Count);
    }

    [Theory]
    [InlineData("0.9", 0.9)]
    [InlineData("85 %", 0.85)]
    [InlineData("100%", 1)]
    public void Target_Stated_IsRead(string text, double expected) =>
        Assert.Equal(expected, Trips(Trip("DTSTART:20260105T073000", "DURATION:PT1H", $"X-TARGET-STATE-OF-CHARGE:{text}"))[0].Target!.Value.Fraction, 12);

    [Theory]
    [InlineData("90")]
    [InlineData("-1")]
    [InlineData("full")]
    [InlineData("101%")]
    public void Target_OutsideItsRange_IsAFault(string text) =>
        Assert.Equal(7, Fault(Trip("DTSTART:20260105T073000", "DURATION:PT1H", $"X-TARGET-STATE-OF-CHARGE:{text}")).Line);

    [Theory]
    [InlineData("DTSTART:20260105T073000")]
    [InlineData("DTEND:20260105T073000")]
    [InlineData("DTSTART:20260105T073000", "DTEND:20260105T073000")]
    [InlineData("DTSTART:20260105T073000", "DTEND:20260105T063000")]
    [InlineData("DTSTART:20260105T073000", "DTEND;VALUE=DATE:20260106")]
    [InlineData("DTSTART;VALUE=DATE:20260105", "DTEND;VALUE=DATE:20260105")]
    [InlineData("DTSTART:20260105T073000", "DTEND:20260105T083000", "DURATION:PT1H")]
    [InlineData("DTSTART:20260105T073000", "DURATION:-PT1H")]
    [InlineData("DTSTART:20260105T073000", "DURATION:PT0S")]
    [InlineData("DTSTART:20260105T073000", "DURATION:P9999999D")]
    [InlineData("DTSTART:20260105T073000", "DURATION:PT")]
    [InlineData("DTSTART:20260105T073000", "DURATION:PT1H1H")]
    [InlineData("DTSTART:20260105T253000", "DURATION:PT1H")]
    [InlineData("DTSTART:20260230T073000", "DURATION:PT1H")]
    [InlineData("DTSTART:00010101T000000", "DURATION:PT1H")]
    [InlineData("DTSTART:99991231T235959", "DURATION:PT1H")]
    [InlineData("DTSTART:20260105T073000", "DURATION:PT1H", "RDATE;VALUE=PERIOD:20260106T073000Z/PT1H")]
    [InlineData("DTSTART:20260105T073000", "DURATION:PT1H", "EXDATE:never")]
    public void Times_Contradictory_AreFaultsWithALine(params string[] lines) => Assert.NotNull(Fault(Trip(lines)).Line);

    [Theory]
    [InlineData("")]
    [InlineData("hello")]
    [InlineData("BEGIN:VEVENT\r\nEND:VEVENT\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nEND:VCALENDAR\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\nno colon\r\nEND:VCALENDAR\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\nX;A=\"open:1\r\nEND:VCALENDAR\r\n")]
    [InlineData("{\"trips\":[]}")]
    public void Text_Malformed_IsRefused(string ics) => Assert.NotEmpty(Fault(ics).Rule);

    [Fact]
    public void Octets_NotUtf8_AreRefused() =>
        Assert.False(CalendarText.Read((ReadOnlySpan<byte>)[0x42, 0xFF, 0x3A, 0x31], NewYork, From, Until, new CalendarReadingOptions()).IsRead);

    [Fact]
    public void Horizon_Over400Days_IsRefused() =>
        Assert.Contains(
            "400 days",
            CalendarText.Read(Trip(Times), NewYork, From, From + Duration.FromDays(401), new CalendarReadingOptions()).Faults[0].Rule,
            StringComparison.Ordinal);

    [Fact]
    public void Length_OverTheFallChange_CountsTheRepeatedHour()
    {
        // 20:00 EDT on 31 October to 06:00 EST on 1 November: 11 hours.
        var trip = Assert.Single(Trips(Trip("DTSTART:20261031T200000", "DTEND:20261101T060000")));

        Assert.Equal(Duration.FromHours(11), trip.Return - trip.Departure);
    }
}
