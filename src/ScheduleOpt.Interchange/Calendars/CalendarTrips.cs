using NodaTime;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>Makes trips of events: one reading of one calendar.</summary>
internal sealed class CalendarTrips
{
    private const int MostFaults = 20;
    private const int MostWarnings = 100;
    private readonly HouseholdZone zone;
    private readonly Instant from;
    private readonly Instant until;
    private readonly CalendarReadingOptions options;
    private readonly List<Fault> faults = [];
    private readonly List<string> warnings = [];
    private readonly List<IgnoredEvent> ignored = [];
    private readonly List<Trip> trips = [];
    private readonly EventTimes times;
    private readonly RecurrenceStarts recurrence;

    internal CalendarTrips(HouseholdZone zone, Instant from, Instant until, CalendarReadingOptions options)
    {
        (this.zone, this.from, this.until, this.options) = (zone, from, until, options);
        times = new EventTimes(zone.Zone, options.Pointer, faults);
        recurrence = new RecurrenceStarts(options.Pointer, faults);
    }

    internal Reading<CalendarReading> Read(IEnumerable<CalendarComponent> events)
    {
        var facts = events.Select(e => EventFacts.Read(e, options.Pointer, faults, warnings)).ToList();
        var any = false;
        foreach (var series in facts.GroupBy(f => f.Uid.Length > 0 ? f.Uid : $"no UID, line {f.Component.Line}"))
        {
            any |= AddSeries([.. series]);
            if (faults.Count >= MostFaults)
            {
                break;
            }
        }

        if (faults.Count == 0 && !any)
        {
            faults.Add(new Fault(
                options.Pointer,
                "A driving calendar holds at least one trip: an event of category DRIVING or with a distance. Say so if all are trips.",
                $"{facts.Count} events"));
        }

        trips.Sort((a, b) => a.Departure.CompareTo(b.Departure));
        Overlaps.Find(trips, zone, options.Pointer, faults);
        if (faults.Count > 0)
        {
            return Reading<CalendarReading>.Refused([.. faults.Distinct().Take(MostFaults)]);
        }

        if (trips.Count == 0)
        {
            warnings.Add("No trip of the calendar falls into the time asked for.");
        }

        return new CalendarReading
        {
            Trips = [.. trips],
            Ignored = [.. ignored.OrderBy(i => i.Line)],
            Warnings = [.. warnings.Distinct().Take(MostWarnings)],
        };
    }

    // The events of one UID: the series, and instances of it that were moved or cancelled.
    private bool AddSeries(EventFacts[] series)
    {
        var newest = series
            .GroupBy(f => f.Component.First("RECURRENCE-ID")?.Value.Trim() ?? "")
            .Select(g => g
                .OrderByDescending(f => f.Revision.Sequence)
                .ThenByDescending(f => f.Revision.Stamp, StringComparer.Ordinal)
                .First())
            .ToArray();
        ignored.AddRange(series.Except(newest).Select(f => Ignore(f, "A later revision of the event stands in the calendar.")));

        var master = newest.FirstOrDefault(f => f.Component.First("RECURRENCE-ID") is null);
        var masterIsTrip = master is not null && IsTrip(master);
        var times = masterIsTrip && !master!.Cancelled ? TripEvent.Read(master.Component, this.times, options.Pointer, faults) : null;
        var moved = new HashSet<LocalDateTime>();
        var any = false;
        foreach (var instance in newest)
        {
            if (instance == master)
            {
                continue;
            }

            if (!ReadMoved(instance, times, moved))
            {
                return any;
            }

            any |= AddEvent(instance, masterIsTrip ? master : null, null, []);
        }

        return (master is not null && AddEvent(master, null, times, moved)) || any;
    }

    private bool ReadMoved(EventFacts instance, TripEvent? master, HashSet<LocalDateTime> moved)
    {
        var line = instance.Component.First("RECURRENCE-ID")!;
        if (line.Parameters.ContainsKey("RANGE"))
        {
            faults.Add(new Fault(
                options.Pointer,
                "A RECURRENCE-ID names a single instance; RANGE is not read.",
                Shortened.Text(line.Value),
                line.Line));
            return false;
        }

        if (times.Read(line) is not { } original)
        {
            return false;
        }

        if (master is not null)
        {
            moved.Add(original.IsDate ? original.Local.Date.At(master.Start.Local.TimeOfDay) : original.In(master.Start.Zone));
        }

        return true;
    }

    // Returns whether the event is a trip, cancelled or not in the span as it may be.
    private bool AddEvent(EventFacts facts, EventFacts? master, TripEvent? read, HashSet<LocalDateTime> moved)
    {
        if (!IsTrip(facts) && master is null)
        {
            ignored.Add(Ignore(facts, "It is not marked DRIVING and carries no distance."));
            return false;
        }

        if (facts.Cancelled)
        {
            ignored.Add(Ignore(facts, "It is cancelled."));
            return true;
        }

        if ((read ?? TripEvent.Read(facts.Component, times, options.Pointer, faults)) is not { } trip)
        {
            return true;
        }

        if ((facts.Distance ?? master?.Distance ?? options.DefaultDistance) is not { } distance)
        {
            faults.Add(new Fault(
                options.Pointer,
                "A trip carries a distance (X-TRIP-DISTANCE;X-UNIT=km:64), or there is a default distance.",
                facts.Label,
                facts.Component.Line));
            return true;
        }

        Warn(facts, trip);
        var eventZone = new HouseholdZone(trip.Start.Zone);
        foreach (var start in Starts(trip, moved))
        {
            var instance = trip.Length.Of(start, eventZone);
            if (instance.Return.Instant > from && instance.Departure.Instant < until)
            {
                Add(facts, master, instance, new EventTime(start, trip.Start.Zone, IsDate: false), distance);
            }
        }

        return true;
    }

    private IEnumerable<LocalDateTime> Starts(TripEvent trip, HashSet<LocalDateTime> moved)
    {
        var starts = new SortedSet<LocalDateTime>(trip.Further) { trip.Start.Local };
        if (trip.Rule is { } rule)
        {
            var first = from.InZone(trip.Start.Zone).Date.PlusDays(-trip.Length.Days - 1);
            var last = until.InZone(trip.Start.Zone).Date.PlusDays(1);
            starts.UnionWith(recurrence.Between(rule, trip.Start, first, last, trip.RuleLine));
            if (recurrence.Between(rule, trip.Start, trip.Start.Local.Date, trip.Start.Local.Date, trip.RuleLine).Count == 0)
            {
                var day = trip.Start.Local.Date;
                warnings.Add($"The rule '{Shortened.Text(rule.Pattern)}' does not name its own first day, {day:uuuu-MM-dd}; it was kept.");
            }
        }

        return starts.Where(s => !moved.Contains(s) && !trip.Excepts(s));
    }

    private void Add(EventFacts facts, EventFacts? master, TripTimes instance, EventTime asked, Core.Distance distance)
    {
        var (departure, back) = (instance.Departure.Instant, instance.Return.Instant);
        if (back <= departure)
        {
            faults.Add(new Fault(
                options.Pointer,
                "A trip returns after it leaves.",
                $"{facts.Label} at {asked.Local:uuuu-MM-dd HH:mm}",
                facts.Component.Line));
            return;
        }

        if (instance.Warning(facts.Label, asked.Local) is { } warning)
        {
            warnings.Add(warning);
        }

        trips.Add(Trip.Plain(departure, back, distance, facts.Target ?? master?.Target, facts.Label) with
        {
            ShownDeparture = ShownAtHome(instance, asked.Zone),
        });
    }

    // The household's clock, where the event has a zone of its own.
    private LocalDateTime? ShownAtHome(TripTimes instance, DateTimeZone eventZone) =>
        instance.ShownDeparture is { } shown ? new EventTime(shown, eventZone, IsDate: false).In(zone.Zone) : null;

    private void Warn(EventFacts facts, TripEvent trip)
    {
        if (trip.AllDay)
        {
            var (begins, ends) = (TripLength.DrivingDayBegins, TripLength.DrivingDayEnds);
            warnings.Add($"'{facts.Label}' has no clock times: a driving day from {begins:HH:mm} to {ends:HH:mm} is assumed.");
        }
        else if (trip.Rule is { UntilIsLocal: true } && !trip.Start.Zone.Equals(zone.Zone))
        {
            warnings.Add($"'{facts.Label}': UNTIL should be in UTC; it was read in {trip.Start.Zone.Id}.");
        }

        if (facts.Distance is null)
        {
            warnings.Add($"'{facts.Label}' carries no distance; that of its series or the default was taken.");
        }
    }

    private bool IsTrip(EventFacts facts) => facts.MarkedDriving || facts.Distance is not null || options.AllEventsAreTrips;

    private static IgnoredEvent Ignore(EventFacts facts, string reason) => new(facts.Label, facts.Component.Line, reason);
}
