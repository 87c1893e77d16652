using NodaTime;

namespace ScheduleOpt.Core.Driving;

/// <summary>What the household will drive: trips in order of departure, none overlapping.</summary>
public sealed class DrivingCalendar
{
    /// <summary>Makes a calendar.</summary>
    /// <param name="trips">Trips in any order.</param>
    /// <exception cref="ArgumentException">Two trips overlap, or one returns before it leaves.</exception>
    public DrivingCalendar(IEnumerable<Trip> trips)
    {
        Trips = [.. trips.OrderBy(t => t.Departure)];
        for (var i = 0; i < Trips.Count; i++)
        {
            if (Trips[i].Return <= Trips[i].Departure)
            {
                throw new ArgumentException($"The trip of {Trips[i].Departure} returns before it leaves.", nameof(trips));
            }

            if (i > 0 && Trips[i].Departure < Trips[i - 1].Return)
            {
                throw new ArgumentException($"The trip of {Trips[i].Departure} leaves before the one before has returned.", nameof(trips));
            }
        }
    }

    /// <summary>The trips in order of departure.</summary>
    public IReadOnlyList<Trip> Trips { get; }

    /// <summary>The trips that are under way or leave within a span: return after its start, departure before its end.</summary>
    public IEnumerable<Trip> Within(Instant start, Instant end) => Trips.Where(t => t.Return > start && t.Departure < end);

    /// <summary>The same trips with every distance times a factor.</summary>
    /// <param name="factor">Zero or more, finite.</param>
    public DrivingCalendar Scaled(double factor) => new(Trips.Select(t => t with
    {
        Legs = [.. t.Legs.Select(l => l with { Distance = Distance.FromKilometres(l.Distance.Kilometres * factor) })],
    }));

    /// <summary>The same trips with the car left unplugged on a share of the stays at home between them, evenly spread.</summary>
    /// <remarks>An unplugged stay joins the trips on both sides into one with a stop without charging. Of the joined trip the first
    /// departure's target holds; so departures are fewer by as many.</remarks>
    /// <param name="share">In [0, 0.5]: two neighbouring stays are never both missed.</param>
    /// <exception cref="ArgumentOutOfRangeException">The share is outside [0, 0.5].</exception>
    public DrivingCalendar WithMissedNights(double share)
    {
        if (share is not (>= 0 and <= 0.5))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "The share of missed nights must lie in 0 to 0.5.");
        }

        var joined = new List<Trip>();
        for (var i = 0; i < Trips.Count; i++)
        {
            // The stay before trip i is missed where the running count of missed stays rises; no randomness, so equal input, equal years.
            var isMissed = i > 0 && Math.Floor((i * share) + 1e-9) > Math.Floor(((i - 1) * share) + 1e-9) && Trips[i].Departure > Trips[i - 1].Return;
            if (isMissed)
            {
                joined[^1] = Joined(joined[^1], Trips[i]);
            }
            else
            {
                joined.Add(Trips[i]);
            }
        }

        return new DrivingCalendar(joined);
    }

    private static Trip Joined(Trip first, Trip second)
    {
        var last = first.Legs[^1] with { Stop = new TripStop(first.Return, second.Departure) };
        return first with { Return = second.Return, Legs = [.. first.Legs.SkipLast(1), last, .. second.Legs] };
    }
}
