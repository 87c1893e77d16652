using NodaTime;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>Works out a recurring trip outside a calendar file, by the rules, limits and code of <see cref="CalendarText"/>.</summary>
public static class TripRecurrence
{
    /// <summary>The instances under way or leaving within a span.</summary>
    /// <param name="rule">A recurrence rule of RFC 5545, daily or coarser, such as <c>FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR</c>.</param>
    /// <param name="departure">The first departure by the household's clock; always an instance.</param>
    /// <param name="return">The first return by the household's clock; each instance returns at that time, so many days later.</param>
    /// <param name="exceptDates">Dates of departures that are left out.</param>
    /// <param name="zone">The household's zone.</param>
    /// <param name="from">Start of the span.</param>
    /// <param name="until">End of the span, at most 400 days later.</param>
    /// <param name="pointer">The JSON pointer of the rule, for faults.</param>
    /// <param name="label">The trip's name, for warnings.</param>
    public static Reading<RecurringTimes> Expand(
        string rule,
        LocalDateTime departure,
        LocalDateTime @return,
        IEnumerable<LocalDate> exceptDates,
        HouseholdZone zone,
        Instant from,
        Instant until,
        string pointer = "#/recurrence",
        string label = "")
    {
        ArgumentNullException.ThrowIfNull(rule);
        ArgumentNullException.ThrowIfNull(exceptDates);
        ArgumentNullException.ThrowIfNull(zone);
        var faults = new List<Fault>();
        if (CalendarSpan.Fault(pointer, from, until) is { } span)
        {
            faults.Add(span);
        }

        var days = Period.DaysBetween(departure.Date, @return.Date);
        if (@return <= departure
            || days > CalendarLimits.TripDays
            || departure.Year is < CalendarLimits.FirstYear or > CalendarLimits.LastYear)
        {
            faults.Add(new Fault(
                pointer,
                $"A trip returns within {CalendarLimits.TripDays} days after it leaves, in "
                    + $"{CalendarLimits.FirstYear} to {CalendarLimits.LastYear}.",
                $"{departure:uuuu-MM-dd HH:mm} to {@return:uuuu-MM-dd HH:mm}"));
        }

        var first = new EventTime(departure, zone.Zone, IsDate: false);
        var read = RecurrenceRule.Read(rule, first, pointer, null, faults);
        if (read is null || faults.Count > 0)
        {
            return Reading<RecurringTimes>.Refused(faults);
        }

        var starts = new SortedSet<LocalDateTime> { departure };
        starts.UnionWith(new RecurrenceStarts(pointer, faults).Between(
            read,
            first,
            from.InZone(zone.Zone).Date.PlusDays(-days - 1),
            until.InZone(zone.Zone).Date.PlusDays(1),
            null));
        var except = exceptDates.ToHashSet();
        var length = new TripLength.Clock(days, @return.TimeOfDay);
        var (instances, warnings) = (new List<TripTimes>(), new List<string>());
        foreach (var start in starts.Where(s => !except.Contains(s.Date)))
        {
            var instance = length.Of(start, zone);
            if (instance.Return.Instant <= from || instance.Departure.Instant >= until)
            {
                continue;
            }

            if (instance.Return.Instant <= instance.Departure.Instant)
            {
                faults.Add(new Fault(pointer, "A trip returns after it leaves.", $"{start:uuuu-MM-dd HH:mm}"));
            }

            instances.Add(instance);
            if (instance.Warning(label, start) is { } warning)
            {
                warnings.Add(warning);
            }
        }

        return faults.Count > 0
            ? Reading<RecurringTimes>.Refused(faults)
            : new RecurringTimes { Instances = instances, Warnings = warnings };
    }
}
