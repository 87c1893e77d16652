using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>What a question about several cars spans.</summary>
internal static class PlannedSpan
{
    /// <summary>From the earliest plug-in to the latest horizon of a car, moved on to where none is on a trip.</summary>
    public static Interval Of(IReadOnlyList<CarRequest> cars, int days)
    {
        var start = cars.Min(c => c.PlugIn.At);
        var end = cars.Max(c => Horizon.End(start, days, c.Calendar));
        while (cars.SelectMany(c => c.Calendar.Trips).FirstOrDefault(t => t.Departure < end && t.Return > end) is { } away)
        {
            end = away.Return;
        }

        return new(start, end);
    }
}
