using System.Globalization;
using NodaTime;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>Reads DATE and DATE-TIME values. RFC 5545, sections 3.3.4 and 3.3.5.</summary>
internal sealed class EventTimes(DateTimeZone household, string pointer, List<Fault> faults)
{
    /// <summary>The time a property states; null and a fault where it states none.</summary>
    internal EventTime? Read(ContentLine line) => Read(line, line.Value.Trim());

    /// <summary>Every time a comma-listed property states.</summary>
    internal IEnumerable<EventTime> ReadList(ContentLine line)
    {
        foreach (var value in line.Value.Split(','))
        {
            if (Read(line, value.Trim()) is { } time)
            {
                yield return time;
            }
        }
    }

    /// <summary>A local date and time of the form YYYYMMDDTHHMMSS; null where it is none.</summary>
    internal static LocalDateTime? Local(string text)
    {
        if (text.Length != 15 || text[8] != 'T' || !Digits(text[..8]) || !Digits(text[9..]) || Date(text[..8]) is not { } date)
        {
            return null;
        }

        var (hour, minute, second) = (Number(text, 9), Number(text, 11), Number(text, 13));
        return hour < 24 && minute < 60 && second < 60 ? date.At(new LocalTime(hour, minute, second)) : null;
    }

    /// <summary>A date of the form YYYYMMDD; null where it is none.</summary>
    internal static LocalDate? Date(string text)
    {
        if (text.Length != 8 || !Digits(text))
        {
            return null;
        }

        var (year, month, day) = ((Number(text, 0) * 100) + Number(text, 2), Number(text, 4), Number(text, 6));
        return year is >= CalendarLimits.FirstYear and <= CalendarLimits.LastYear
            && month is >= 1 and <= 12
            && day >= 1
            && day <= CalendarSystem.Iso.GetDaysInMonth(year, month)
                ? new LocalDate(year, month, day)
                : null;
    }

    private static bool Digits(string text) => text.All(char.IsAsciiDigit);

    private static int Number(string text, int at) => int.Parse(text.AsSpan(at, 2), NumberStyles.None, CultureInfo.InvariantCulture);

    private EventTime? Read(ContentLine line, string value)
    {
        if (Date(value) is { } date)
        {
            return new EventTime(date.AtMidnight(), household, IsDate: true);
        }

        var utc = value.EndsWith('Z');
        if (Local(utc ? value[..^1] : value) is not { } local)
        {
            faults.Add(new Fault(
                pointer,
                $"{line.Name} states YYYYMMDDTHHMMSS, with Z for UTC, or YYYYMMDD, in "
                    + $"{CalendarLimits.FirstYear} to {CalendarLimits.LastYear}.",
                Shortened.Text(value),
                line.Line));
            return null;
        }

        if (utc || !line.Parameters.TryGetValue("TZID", out var tzid))
        {
            return new EventTime(local, utc ? DateTimeZone.Utc : household, IsDate: false);
        }

        if (CalendarZones.Find(tzid) is { } zone)
        {
            return new EventTime(local, zone, IsDate: false);
        }

        faults.Add(new Fault(
            pointer,
            "A TZID is the name of an IANA time zone; zones defined in the file itself are not read.",
            Shortened.Text(tzid),
            line.Line));
        return null;
    }
}
