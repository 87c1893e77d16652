using System.Globalization;
using NodaTime;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>A DURATION value: days are nominal, the clock part is exact. RFC 5545, section 3.3.6.</summary>
/// <param name="Days">Calendar days, weeks counted as seven.</param>
/// <param name="Clock">Hours, minutes and seconds.</param>
internal readonly record struct NominalDuration(int Days, Duration Clock)
{
    /// <summary>Reads a duration above zero and of at most <see cref="CalendarLimits.TripDays"/> days; null where it is none.</summary>
    internal static NominalDuration? Read(string text)
    {
        var rest = text.StartsWith('+') ? text.AsSpan(1) : text;
        if (rest.Length < 3 || rest.Length > 30 || rest[0] != 'P')
        {
            return null;
        }

        long days = 0, seconds = 0;
        var (inClock, order) = (false, -1);
        for (var i = 1; i < rest.Length; i++)
        {
            if (rest[i] == 'T' && !inClock)
            {
                (inClock, order) = (true, Math.Max(order, 1));
                continue;
            }

            var end = i;
            while (end < rest.Length && char.IsAsciiDigit(rest[end]))
            {
                end++;
            }

            if (end == i || end == rest.Length || end - i > 8)
            {
                return null;
            }

            var number = long.Parse(rest[i..end], NumberStyles.None, CultureInfo.InvariantCulture);
            var place = inClock ? "WDHMS".IndexOf(rest[end], 2) : "WD".IndexOf(rest[end], StringComparison.Ordinal);
            if (place <= order)
            {
                return null;
            }

            (order, i) = (place, end);
            days += place switch { 0 => 7 * number, 1 => number, _ => 0 };
            seconds += place switch { 2 => 3600 * number, 3 => 60 * number, 4 => number, _ => 0 };
        }

        var total = (days * 86_400) + seconds;
        return rest[^1] != 'T' && total > 0 && total <= CalendarLimits.TripDays * 86_400L
            ? new NominalDuration((int)days, Duration.FromSeconds(seconds))
            : null;
    }
}
