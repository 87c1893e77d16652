using NodaTime;
using ScheduleOpt.Tariffs.Calendars;

namespace ScheduleOpt.Tariffs.Events;

/// <summary>The events that were called, from the document and from beside it.</summary>
internal static class EventCalls
{
    /// <summary>All calls of a kind of event, in order of time.</summary>
    public static CalledEvent[] Of(RatePlan plan, EventDefinition definition, BillInput input) =>
        [.. definition.Past
            .Concat(input.Events.TryGetValue(definition.Name, out var given) ? given : [])
            .OrderBy(e => e.Start(plan.Zone))];

    /// <summary>Hours in which events give the period of a calendar, in order, without overlaps; the definition listed first wins.</summary>
    public static EventSpan[] Spans(RatePlan plan, string? calendarName, RateCalendar calendar, Dictionary<string, CalledEvent[]> calls)
    {
        var spans = new List<EventSpan>();
        foreach (var definition in plan.Events.Where(e => e.Calendar == calendarName && e.Period is not null))
        {
            var period = calendar.Periods.IndexWhere(p => p == definition.Period);
            foreach (var called in calls[definition.Name])
            {
                Add(spans, new(called.Start(plan.Zone).ToUnixTimeSeconds(), called.End(plan.Zone).ToUnixTimeSeconds(), period));
            }
        }

        return [.. spans];
    }

    // What is taken already stays: the new span fills the gaps.
    private static void Add(List<EventSpan> spans, EventSpan added)
    {
        var at = added.StartSecond;
        var i = 0;
        while (at < added.EndSecond)
        {
            while (i < spans.Count && spans[i].EndSecond <= at)
            {
                i++;
            }

            if (i < spans.Count && spans[i].StartSecond <= at)
            {
                at = spans[i].EndSecond;
                continue;
            }

            var end = i < spans.Count ? Math.Min(added.EndSecond, spans[i].StartSecond) : added.EndSecond;
            spans.Insert(i, added with { StartSecond = at, EndSecond = end });
            at = end;
        }
    }
}
