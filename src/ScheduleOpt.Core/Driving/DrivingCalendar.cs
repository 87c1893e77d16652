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
}
