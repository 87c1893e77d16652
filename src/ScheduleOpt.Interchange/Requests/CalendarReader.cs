using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Interchange.Calendars;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>calendar</c> of a request: a list of trips, or the text of an iCalendar file.</summary>
internal sealed class CalendarReader(DocumentClock clock, StateOfCharge extendedLimit)
{
    /// <summary>The most trips of a calendar, instances of recurring ones counted.</summary>
    public const int MostTrips = 2000;

    private const int MostOverlaps = 20;

    /// <summary>Reads a calendar.</summary>
    /// <param name="field">The object.</param>
    /// <param name="span">The span whose trips are wanted; none where it can't be told: the calendar is checked all the same.</param>
    public CalendarReading? Read(JsonField? field, Interval? span)
    {
        if (field?.Members("trips", "ics", "allEventsAreTrips", "defaultDistanceKm", "defaultDistanceMi") is not { } calendar)
        {
            return null;
        }

        var source = calendar.ExactlyOne("trips", "ics");
        if (calendar.Has("ics"))
        {
            return ReadText(calendar, source, span);
        }

        foreach (var name in new[] { "allEventsAreTrips", "defaultDistanceKm", "defaultDistanceMi" })
        {
            if (calendar.Has(name))
            {
                calendar.Faults.Add(calendar.Pointer(name), "Is used together with ics alone.");
            }
        }

        return source is { } trips ? ReadTrips(trips, span) : null;
    }

    private CalendarReading? ReadText(JsonMembers calendar, JsonField? source, Interval? span)
    {
        var allEvents = calendar.Optional("allEventsAreTrips")?.Flag() ?? false;
        var distance = TripReader.ReadDistance(calendar, isRequired: false, "defaultDistanceKm", "defaultDistanceMi");
        if (source is not { } field || field.Text(JsonText.MostBytes) is not { } text || clock.Zone is null || span is not { } wanted)
        {
            return null;
        }

        var options = new CalendarReadingOptions { AllEventsAreTrips = allEvents, DefaultDistance = distance, Pointer = field.Pointer };
        var reading = CalendarText.Read(text, clock.Zone, wanted.Start, wanted.End, options);
        if (!reading.IsRead)
        {
            field.Faults.AddAll(reading.Faults);
            return null;
        }

        if (reading.Value.Trips.Count > MostTrips)
        {
            field.Fault($"May hold at most {MostTrips} trips in the time asked about; it holds {reading.Value.Trips.Count}.");
            return null;
        }

        return reading.Value;
    }

    private CalendarReading? ReadTrips(JsonField field, Interval? span)
    {
        if (field.Items(0, MostTrips, "trips") is not { } items)
        {
            return null;
        }

        var before = field.Faults.Count;
        var reader = new TripReader(clock, extendedLimit);
        var documents = items.Select(reader.Read).OfType<TripDocument>().ToArray();
        if (clock.Zone is null || span is not { } wanted)
        {
            return null;
        }

        var warnings = new List<string>();
        var trips = new List<(string Pointer, Trip Trip)>();
        foreach (var document in documents)
        {
            trips.AddRange(Instances(document, wanted, field.Faults, warnings).Select(trip => (document.Pointer, trip)));
            if (trips.Count > MostTrips)
            {
                // At once: the rest could be hundreds of thousands.
                field.Fault($"May hold at most {MostTrips} trips in the time asked about, instances counted; there are more.");
                return null;
            }
        }

        trips.Sort(static (a, b) => a.Trip.Departure.CompareTo(b.Trip.Departure));
        CheckOverlaps(trips, field.Faults);
        return field.Faults.Count > before
            ? null
            : new CalendarReading
            {
                Trips = [.. trips.Select(t => t.Trip).Where(t => t.Return > wanted.Start && t.Departure < wanted.End)],
                Ignored = [],
                Warnings = warnings,
            };
    }

    private IEnumerable<Trip> Instances(TripDocument document, Interval span, FaultList faults, List<string> warnings)
    {
        if (document.Recurrence is not { } recurrence)
        {
            return [document.First];
        }

        var times = TripRecurrence.Expand(
            recurrence.Rule,
            document.LocalDeparture,
            document.LocalReturn,
            recurrence.ExceptDates,
            clock.Zone!,
            span.Start,
            span.End,
            $"{document.Pointer}/recurrence",
            document.First.Label);
        if (!times.IsRead)
        {
            faults.AddAll(times.Faults);
            return [];
        }

        warnings.AddRange(times.Value.Warnings);
        return times.Value.Instances.Select(t =>
            Trip.Plain(t.Departure.Instant, t.Return.Instant, document.First.Distance, document.First.Target, document.First.Label)
                with
            { ShownDeparture = t.ShownDeparture });
    }

    private void CheckOverlaps(List<(string Pointer, Trip Trip)> inOrder, FaultList faults)
    {
        var named = new HashSet<(string, string)>();
        var longest = 0;
        for (var i = 1; i < inOrder.Count && named.Count < MostOverlaps; i++)
        {
            var (earlier, later) = (inOrder[longest], inOrder[i]);
            if (later.Trip.Departure < earlier.Trip.Return && named.Add((earlier.Pointer, later.Pointer)))
            {
                var local = later.Trip.Departure.InZone(clock.Zone!.Zone).LocalDateTime;
                faults.Add(
                    $"{later.Pointer}/departure",
                    earlier.Pointer == later.Pointer
                        ? "An instance of this trip leaves before the one before it has returned; one car can't be on both."
                        : $"Leaves before the trip at {earlier.Pointer} has returned; one car can't be on both.",
                    local.ToString("uuuu-MM-dd'T'HH:mm", System.Globalization.CultureInfo.InvariantCulture));
            }

            longest = later.Trip.Return > earlier.Trip.Return ? i : longest;
        }
    }
}
