using NodaTime;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>The span for which recurring trips are worked out.</summary>
internal static class CalendarSpan
{
    /// <summary>What is wrong with a span; null where it is right.</summary>
    internal static Fault? Fault(string pointer, Instant from, Instant until) =>
        until > from
        && until - from <= Duration.FromDays(CalendarLimits.HorizonDays)
        && from >= Instant.FromUtc(CalendarLimits.FirstYear, 1, 2, 0, 0)
        && until <= Instant.FromUtc(CalendarLimits.LastYear, 12, 30, 0, 0)
            ? null
            : new Fault(
                pointer,
                $"Trips are worked out for at most {CalendarLimits.HorizonDays} days, in "
                    + $"{CalendarLimits.FirstYear} to {CalendarLimits.LastYear}.",
                $"{from} to {until}");
}
