using NodaTime;
using ScheduleOpt.Tariffs.Calendars;

namespace ScheduleOpt.Tariffs.Events;

/// <summary>Finds events that the plan's own rules don't allow. They are billed all the same: what the utility called, it called.</summary>
internal static class EventRules
{
    /// <summary>A sentence for each rule that is broken.</summary>
    public static IEnumerable<string> Broken(RatePlan plan, EventDefinition definition, IReadOnlyList<CalledEvent> calls)
    {
        var calendar = definition.Calendar is { } name ? plan.Calendars[name] : plan.Calendar;
        foreach (var called in calls)
        {
            var shown = FormattableString.Invariant($"the event of {called.From:uuuu-MM-dd HH:mm}");
            if (definition.Allowed is { } allowed && !IsAllowed(calendar, allowed, called))
            {
                yield return $"{shown} lies outside the hours in which it may be called.";
            }

            if (Hours(plan, called) > (definition.Limits.HoursPerEvent ?? decimal.MaxValue))
            {
                yield return $"{shown} is longer than {definition.Limits.HoursPerEvent} h.";
            }
        }

        foreach (var day in calls.GroupBy(c => c.From.Date).Where(g => g.Count() > (definition.Limits.EventsPerDay ?? int.MaxValue)))
        {
            yield return FormattableString.Invariant($"more than {definition.Limits.EventsPerDay} events on {day.Key:uuuu-MM-dd}.");
        }

        foreach (var year in calls.GroupBy(c => c.From.Year))
        {
            if (year.Count() > (definition.Limits.EventsPerYear ?? int.MaxValue))
            {
                yield return FormattableString.Invariant($"more than {definition.Limits.EventsPerYear} events in {year.Key}.");
            }

            if (year.Sum(c => Hours(plan, c)) > (definition.Limits.HoursPerYear ?? decimal.MaxValue))
            {
                yield return FormattableString.Invariant($"more than {definition.Limits.HoursPerYear} h of events in {year.Key}.");
            }
        }
    }

    private static decimal Hours(RatePlan plan, CalledEvent called) => (decimal)(called.End(plan.Zone) - called.Start(plan.Zone)).TotalHours;

    private static bool IsAllowed(RateCalendar calendar, EventHours allowed, CalledEvent called)
    {
        var date = called.From.Date;
        var holiday = calendar.ObservedHolidays(date, date).Select(h => h.Holiday).FirstOrDefault();
        var dayType = holiday?.DayType ?? calendar.DayTypes[calendar.DayTypeOf(date.DayOfWeek)].Name;
        int from = MinuteOf(called.From, date), to = MinuteOf(called.To, date);
        return (allowed.Seasons.Count == 0 || allowed.Seasons.Contains(calendar.Seasons[calendar.SeasonOf(date)].Name))
            && (allowed.DayTypes.Count == 0 || allowed.DayTypes.Contains(dayType))
            && !(allowed.NotOnHolidays && holiday is not null)
            && !allowed.NotOn.Contains(new AnnualDate(date.Month, date.Day))
            && (allowed.Windows.Count == 0 || allowed.Windows.Any(w => from >= w.FromMinute && to <= (w.ToMinute > w.FromMinute ? w.ToMinute : w.ToMinute + 1440)));
    }

    private static int MinuteOf(LocalDateTime time, LocalDate date) =>
        (Period.DaysBetween(date, time.Date) * 1440) + (time.Hour * 60) + time.Minute;
}
