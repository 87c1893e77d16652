using NodaTime;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Interchange.Calendars;

namespace ScheduleOpt.Interchange.Tests.Calendars;

/// <summary>Writes small calendars and reads them for New York in 2026 (clocks: forward 8 March 02:00, back 1 November 02:00).</summary>
internal static class Ics
{
    internal static readonly HouseholdZone NewYork = new(DateTimeZoneProviders.Tzdb["America/New_York"]);
    internal static readonly Instant From = Instant.FromUtc(2026, 1, 1, 5, 0);
    internal static readonly Instant Until = Instant.FromUtc(2027, 1, 1, 5, 0);

    internal static string Event(params string[] lines) => $"BEGIN:VEVENT\r\nUID:{Guid.NewGuid()}\r\n{string.Join("\r\n", lines)}\r\nEND:VEVENT\r\n";

    internal static string Calendar(params string[] events) => $"BEGIN:VCALENDAR\r\nVERSION:2.0\r\n{string.Concat(events)}END:VCALENDAR\r\n";

    /// <summary>A calendar of one trip of 64 km with the given lines.</summary>
    internal static string Trip(params string[] lines) => Calendar(Event([.. lines, "SUMMARY:Commute", "X-TRIP-DISTANCE;X-UNIT=km:64"]));

    internal static Reading<CalendarReading> Read(string ics, CalendarReadingOptions? options = null) =>
        CalendarText.Read(ics, NewYork, From, Until, options ?? new CalendarReadingOptions());

    internal static Trip[] Trips(string ics) => [.. Read(ics).Value.Trips];

    internal static Fault Fault(string ics, CalendarReadingOptions? options = null)
    {
        var reading = Read(ics, options);
        Assert.False(reading.IsRead, "The calendar was read although it should have been refused.");
        return reading.Faults[0];
    }

    /// <summary>The instant of a UTC text such as 2026-03-08T07:00.</summary>
    internal static Instant Utc(string text) => NodaTime.Text.InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Parse(text).Value;
}
