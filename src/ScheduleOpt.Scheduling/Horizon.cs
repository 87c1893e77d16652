using NodaTime;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Scheduling;

/// <summary>How far a schedule looks ahead.</summary>
public static class Horizon
{
    /// <summary>The least length of a horizon. [d]</summary>
    public const int LeastDays = 2;

    /// <summary>The days looked ahead where nothing else is asked. [d]</summary>
    public const int DefaultDays = 7;

    /// <summary>The most days that may be asked for. [d]</summary>
    public const int MostDays = 31;

    /// <summary>The end of the horizon: the days asked for, at least 48 h, at least the second departure ahead, and never inside a trip.</summary>
    /// <param name="start">When the car stands plugged in.</param>
    /// <param name="days">Days of 24 h asked for.</param>
    /// <param name="calendar">The trips.</param>
    public static Instant End(Instant start, int days, DrivingCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        var end = start + Duration.FromDays(Math.Max(LeastDays, days));
        var ahead = calendar.Trips.Where(t => t.Departure >= start).Take(2).ToArray();
        if (ahead.Length == 2)
        {
            // A second departure beyond the longest horizon is out of reach of any answer about tonight.
            var latest = start + Duration.FromDays(MostDays);
            end = Instant.Max(end, Instant.Min(ahead[1].Departure, latest));
        }

        var underWay = calendar.Trips.FirstOrDefault(t => t.Departure < end && t.Return > end);
        return underWay?.Return ?? end;
    }
}
