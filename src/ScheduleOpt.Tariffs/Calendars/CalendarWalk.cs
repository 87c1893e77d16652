using NodaTime;

namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>A rate calendar laid out over real dates: spans of instants with their season and period.</summary>
internal sealed class CalendarWalk
{
    private readonly RateCalendar calendar;
    private readonly LocalDate[] cuts;
    private readonly EventSpan[] events;
    private readonly LocalDate first;
    private readonly DayKind[] kinds;
    private readonly int[] breakpoints;
    private readonly Dictionary<(DayKind Before, DayKind Today), DaySegment[]> segments = [];

    /// <summary>Lays out a calendar.</summary>
    /// <param name="calendar">The calendar.</param>
    /// <param name="from">First instant that will be asked for.</param>
    /// <param name="until">End of what will be asked for.</param>
    /// <param name="cuts">Dates at which a charge begins or ends, in order.</param>
    /// <param name="events">Hours in which an event gives the period, in order, without overlaps; none for no events.</param>
    public CalendarWalk(RateCalendar calendar, Instant from, Instant until, LocalDate[] cuts, EventSpan[]? events = null)
    {
        (this.calendar, this.cuts, this.events) = (calendar, cuts, events ?? []);
        // Two days before: standard time lags behind, and windows run over midnight.
        first = from.InZone(calendar.Zone).Date.PlusDays(-2);
        var last = until.InZone(calendar.Zone).Date.PlusDays(1);
        kinds = new DayKind[Period.DaysBetween(first, last) + 1];
        for (var i = 0; i < kinds.Length; i++)
        {
            var date = first.PlusDays(i);
            kinds[i] = new(calendar.SeasonOf(date), calendar.DayTypeOf(date.DayOfWeek));
        }

        foreach (var (date, holiday) in calendar.ObservedHolidays(first, last))
        {
            var i = Period.DaysBetween(first, date);
            kinds[i] = kinds[i] with { DayType = calendar.DayTypeNamed(holiday.DayType) };
        }

        breakpoints = DaySegments.Breakpoints(calendar);
    }

    /// <summary>How many slices the cuts make.</summary>
    public int Slices => cuts.Length + 1;

    public int SliceOf(LocalDate date)
    {
        var slice = 0;
        while (slice < cuts.Length && cuts[slice] <= date)
        {
            slice++;
        }

        return slice;
    }

    public int SeasonOf(LocalDate date) => kinds[Period.DaysBetween(first, date)].Season;

    /// <summary>The second at which the date of another one ends, by the calendar's clock.</summary>
    public long EndOfDay(long second)
    {
        var instant = Instant.FromUnixTimeSeconds(second);
        if (!calendar.StandardTime)
        {
            return calendar.Zone.AtStartOfDay(instant.InZone(calendar.Zone).Date.PlusDays(1)).ToInstant().ToUnixTimeSeconds();
        }

        var offset = calendar.Zone.GetZoneInterval(instant).StandardOffset;
        return instant.WithOffset(offset).Date.PlusDays(1).AtMidnight().WithOffset(offset).ToInstant().ToUnixTimeSeconds();
    }

    /// <summary>The spans from one instant to another, in order, without gaps; neighbours differ.</summary>
    public List<CalendarSpan> Spans(Instant from, Instant until)
    {
        var spans = new List<CalendarSpan>();
        // Within one zone interval the offset is constant, so that local minutes are plain offsets from local midnight: days of 23 and 25 hours
        // need no case of their own.
        foreach (var constant in calendar.Zone.GetZoneIntervals(from, until))
        {
            var start = constant.HasStart && constant.Start > from ? constant.Start : from;
            var end = constant.HasEnd && constant.End < until ? constant.End : until;
            AddDays(spans, start, end, calendar.StandardTime ? constant.StandardOffset : constant.WallOffset);
        }

        return events.Length == 0 ? spans : WithEvents(spans);
    }

    private List<CalendarSpan> WithEvents(List<CalendarSpan> spans)
    {
        var cut = new List<CalendarSpan>(spans.Count + events.Length);
        foreach (var span in spans)
        {
            var at = span.StartSecond;
            foreach (var called in events)
            {
                long from = Math.Max(called.StartSecond, at), to = Math.Min(called.EndSecond, span.EndSecond);
                if (from < to)
                {
                    if (at < from)
                    {
                        Add(cut, span with { StartSecond = at, EndSecond = from });
                    }

                    Add(cut, span with { StartSecond = from, EndSecond = to, Period = called.Period });
                    at = to;
                }
            }

            if (at < span.EndSecond)
            {
                Add(cut, span with { StartSecond = at });
            }
        }

        return cut;
    }

    private void AddDays(List<CalendarSpan> spans, Instant start, Instant end, Offset offset)
    {
        long startSecond = start.ToUnixTimeSeconds(), endSecond = end.ToUnixTimeSeconds();
        var date = start.WithOffset(offset).Date;
        var midnight = date.AtMidnight().WithOffset(offset).ToInstant().ToUnixTimeSeconds();
        var day = Period.DaysBetween(first, date);
        for (; midnight < endSecond; midnight += NodaConstants.SecondsPerDay, day++)
        {
            var slice = cuts.Length == 0 ? 0 : SliceOf(first.PlusDays(day));
            foreach (var segment in SegmentsOf(kinds[day - 1], kinds[day]))
            {
                var from = Math.Max(startSecond, midnight + (segment.FromMinute * 60L));
                var to = Math.Min(endSecond, midnight + (segment.ToMinute * 60L));
                if (from < to)
                {
                    Add(spans, new(from, to, segment.Season, segment.Period, slice));
                }
            }
        }
    }

    private DaySegment[] SegmentsOf(DayKind before, DayKind today)
    {
        if (!segments.TryGetValue((before, today), out var found))
        {
            segments.Add((before, today), found = DaySegments.Of(calendar, breakpoints, before, today));
        }

        return found;
    }

    private static void Add(List<CalendarSpan> spans, CalendarSpan span)
    {
        if (spans.Count > 0 && spans[^1] is var last && last.Season == span.Season && last.Period == span.Period && last.Slice == span.Slice)
        {
            spans[^1] = last with { EndSecond = span.EndSecond };
        }
        else
        {
            spans.Add(span);
        }
    }
}
