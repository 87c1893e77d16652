using NodaTime;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>The times of an event that is a trip: first start, length, rule, further and excepted starts.</summary>
internal sealed class TripEvent
{
    private TripEvent(EventTime start, TripLength length) => (Start, Length) = (start, length);

    /// <summary>The first start; of an all-day event, 08:00 of its first day.</summary>
    internal EventTime Start { get; }

    /// <summary>How long each instance lasts.</summary>
    internal TripLength Length { get; }

    /// <summary>Whether it stated dates without clock times.</summary>
    internal bool AllDay { get; private init; }

    /// <summary>Its recurrence rule.</summary>
    internal RecurrenceRule? Rule { get; private init; }

    /// <summary>The line of the rule.</summary>
    internal int? RuleLine { get; private init; }

    /// <summary>Further local starts: RDATE.</summary>
    internal IReadOnlyList<LocalDateTime> Further { get; private init; } = [];

    private HashSet<LocalDateTime> ExceptedStarts { get; init; } = [];

    private HashSet<LocalDate> ExceptedDates { get; init; } = [];

    /// <summary>Reads the times of an event; null where there is a fault.</summary>
    internal static TripEvent? Read(CalendarComponent component, EventTimes times, string pointer, List<Fault> faults)
    {
        var before = faults.Count;
        void Refuse(string rule, ContentLine? line) =>
            faults.Add(new Fault(pointer, rule, Shortened.Text(line?.Value ?? ""), line?.Line ?? component.Line));

        if (component.First("DTSTART") is not { } startLine)
        {
            Refuse("An event has a DTSTART.", null);
            return null;
        }

        if (times.Read(startLine) is not { } start || ReadLength(component, start, times, Refuse) is not { } length)
        {
            return null;
        }

        var rules = component.All("RRULE").ToArray();
        if (rules.Length > 1)
        {
            Refuse("An event has at most one RRULE.", rules[1]);
        }

        foreach (var unread in component.Lines.Where(l => l.Name == "EXRULE" || (l.Name == "RDATE" && l.Value.Contains('/'))))
        {
            Refuse("EXRULE is withdrawn, and an RDATE lists starts, not periods.", unread);
        }

        var rule = rules.Length == 1 ? RecurrenceRule.Read(rules[0].Value, start, pointer, rules[0].Line, faults) : null;
        var first = start.IsDate ? start with { Local = start.Local.Date.At(TripLength.DrivingDayBegins), IsDate = false } : start;
        var further = faults.Count > before ? [] : component.All("RDATE").SelectMany(times.ReadList).ToArray();
        if (further.Length > CalendarLimits.Instances)
        {
            Refuse($"An event has at most {CalendarLimits.Instances} further dates.", null);
        }

        var excepted = faults.Count > before ? [] : component.All("EXDATE").SelectMany(times.ReadList).ToArray();
        return faults.Count > before
            ? null
            : new TripEvent(first, length)
            {
                AllDay = start.IsDate,
                Rule = rule,
                RuleLine = rules.Length == 1 ? rules[0].Line : null,
                Further = [.. further.Select(t => t.IsDate ? t.Local.Date.At(first.Local.TimeOfDay) : t.In(first.Zone))],
                ExceptedStarts = [.. excepted.Where(t => !t.IsDate).Select(t => t.In(first.Zone))],
                ExceptedDates = [.. excepted.Where(t => t.IsDate || start.IsDate).Select(t => t.In(first.Zone).Date)],
            };
    }

    /// <summary>Whether an EXDATE leaves this start out.</summary>
    internal bool Excepts(LocalDateTime local) => ExceptedStarts.Contains(local) || ExceptedDates.Contains(local.Date);

    private static TripLength? ReadLength(
        CalendarComponent component,
        EventTime start,
        EventTimes times,
        Action<string, ContentLine?> refuse)
    {
        var (endLine, durationLine) = (component.First("DTEND"), component.First("DURATION"));
        if (endLine is not null && durationLine is not null)
        {
            refuse("An event ends by DTEND or by DURATION, not by both.", durationLine);
            return null;
        }

        if (durationLine is not null)
        {
            if (NominalDuration.Read(durationLine.Value.Trim()) is not { } duration || (start.IsDate && duration.Clock > Duration.Zero))
            {
                refuse(
                    $"DURATION lies above zero and is at most {CalendarLimits.TripDays} days, such as PT9H30M or P2D; of a date whole.",
                    durationLine);
                return null;
            }

            return start.IsDate ? new TripLength.Clock(duration.Days - 1, TripLength.DrivingDayEnds) : new TripLength.Nominal(duration);
        }

        if (endLine is null)
        {
            if (!start.IsDate)
            {
                refuse("A trip has a DTEND or a DURATION.", component.First("DTSTART"));
            }

            return start.IsDate ? new TripLength.Clock(0, TripLength.DrivingDayEnds) : null;
        }

        if (times.Read(endLine) is not { } end)
        {
            return null;
        }

        var zone = new HouseholdZone(start.Zone);
        var length = end.IsDate
            ? Duration.FromDays(Period.DaysBetween(start.Local.Date, end.Local.Date))
            : new HouseholdZone(end.Zone).Return(end.Local).Instant - TripLength.Began(zone.Departure(start.Local), zone);
        if (start.IsDate != end.IsDate || length <= Duration.Zero || length > Duration.FromDays(CalendarLimits.TripDays))
        {
            refuse(
                $"DTEND is later than DTSTART by at most {CalendarLimits.TripDays} days, and both are dates or both have clock times.",
                endLine);
            return null;
        }

        return start.IsDate ? new TripLength.Clock(length.Days - 1, TripLength.DrivingDayEnds) : new TripLength.Exact(length);
    }
}
