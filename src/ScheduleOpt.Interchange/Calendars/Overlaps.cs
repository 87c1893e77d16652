using NodaTime;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>Finds trips that overlap: a car can't be on two trips at once.</summary>
internal static class Overlaps
{
    /// <summary>Adds a fault for each trip that leaves before the one before it is back, naming both; ten at most.</summary>
    internal static void Find(List<Trip> inOrder, HouseholdZone zone, string pointer, List<Fault> faults)
    {
        var found = 0;
        for (var i = 1; i < inOrder.Count && found < 10; i++)
        {
            if (inOrder[i].Departure < inOrder[i - 1].Return)
            {
                faults.Add(new Fault(pointer, "Trips do not overlap.", $"{Name(inOrder[i - 1], zone)} and {Name(inOrder[i], zone)}"));
                found++;
            }
        }
    }

    private static string Name(Trip trip, HouseholdZone zone)
    {
        var (departure, back) = (trip.Departure.InZone(zone.Zone).LocalDateTime, trip.Return.InZone(zone.Zone).LocalDateTime);
        return $"'{trip.Label}' ({departure:uuuu-MM-dd HH:mm} to {back:uuuu-MM-dd HH:mm})";
    }
}
