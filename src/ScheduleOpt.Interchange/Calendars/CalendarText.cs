using System.Text;
using NodaTime;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>Reads a household's driving from a text/calendar document.</summary>
/// <remarks>
/// RFC 5545: VEVENT with DTSTART, DTEND or DURATION, RRULE, RDATE, EXDATE, RECURRENCE-ID of a single instance, STATUS and TZID. A trip is
/// an event with the category DRIVING, one that carries a distance, or any event where the options say so. Its distance is home to home:
/// <c>X-TRIP-DISTANCE;X-UNIT=km:64</c>, else the largest distance in its summary or description, else the default. A target state of charge
/// may be stated as <c>X-TARGET-STATE-OF-CHARGE:0.9</c>. An all-day event is a driving day from 08:00 to 18:00.
/// Whatever the text holds, the answer is a reading or faults, in bounded time: see <see cref="CalendarLimits"/>.
/// </remarks>
public static class CalendarText
{
    /// <summary>Reads the trips under way or leaving within a span.</summary>
    /// <param name="ics">The document as text.</param>
    /// <param name="zone">The household's zone, for times that name none.</param>
    /// <param name="from">Start of the span.</param>
    /// <param name="until">End of the span, at most 400 days later.</param>
    /// <param name="options">How events are taken.</param>
    public static Reading<CalendarReading> Read(string ics, HouseholdZone zone, Instant from, Instant until, CalendarReadingOptions options)
    {
        ArgumentNullException.ThrowIfNull(ics);
        return Read(Encoding.UTF8.GetBytes(ics), zone, from, until, options);
    }

    /// <summary>Reads the trips under way or leaving within a span.</summary>
    /// <param name="utf8">The document as octets; a fold may split a character.</param>
    /// <param name="zone">The household's zone, for times that name none.</param>
    /// <param name="from">Start of the span.</param>
    /// <param name="until">End of the span, at most 400 days later.</param>
    /// <param name="options">How events are taken.</param>
    public static Reading<CalendarReading> Read(
        ReadOnlySpan<byte> utf8,
        HouseholdZone zone,
        Instant from,
        Instant until,
        CalendarReadingOptions options)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(options);
        if (CalendarSpan.Fault(options.Pointer, from, until) is { } span)
        {
            return Reading<CalendarReading>.Refused(span);
        }

        if (utf8.Length > CalendarLimits.Octets)
        {
            return Reading<CalendarReading>.Refused(
                new Fault(options.Pointer, $"A calendar is at most {CalendarLimits.Octets} octets long.", $"{utf8.Length} octets"));
        }

        var faults = new List<Fault>();
        var lines = ContentLines.Read(utf8, options.Pointer, faults);
        var components = faults.Count > 0 ? [] : CalendarComponent.Read(lines, options.Pointer, faults);
        if (faults.Count > 0)
        {
            return Reading<CalendarReading>.Refused(faults);
        }

        return new CalendarTrips(zone, from, until, options).Read(components.Where(c => c.Name == "VEVENT"));
    }
}
