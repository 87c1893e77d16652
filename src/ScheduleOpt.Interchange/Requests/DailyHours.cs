using NodaTime;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Hours of the day by the clock on the wall, on all days or some.</summary>
/// <remarks>
/// They hold whenever that clock shows them: on the night when it jumps over part of them they are shorter, and what it shows twice holds twice.
/// </remarks>
/// <param name="FromMinute">When they begin, in minutes after midnight by the clock; 0 to 1,439.</param>
/// <param name="UntilMinute">When they end, 1 to 1,440; not later than the begin: on the next day.</param>
/// <param name="Days">The days on which they begin; none: every day.</param>
public sealed record DailyHours(int FromMinute, int UntilMinute, IReadOnlySet<IsoDayOfWeek>? Days)
{
    private const int DayMinutes = 24 * 60;

    /// <summary>The hours as instants of a span, in order; those that touch are one.</summary>
    public IReadOnlyList<Interval> Within(HouseholdZone zone, Instant start, Instant end)
    {
        ArgumentNullException.ThrowIfNull(zone);
        var found = new List<Interval>();
        foreach (var stretch in zone.Zone.GetZoneIntervals(start, end))
        {
            // Within one stretch of constant offset the clock runs without jumps.
            var clockStart = LocalAt(Instant.Max(start, stretch.HasStart ? stretch.Start : start), stretch.WallOffset);
            var clockEnd = LocalAt(Instant.Min(end, stretch.HasEnd ? stretch.End : end), stretch.WallOffset);
            for (var day = clockStart.Date.PlusDays(-1); day <= clockEnd.Date; day = day.PlusDays(1))
            {
                if (Days is not null && !Days.Contains(day.DayOfWeek))
                {
                    continue;
                }

                var from = Later(day.AtMidnight().PlusMinutes(FromMinute), clockStart);
                var until = Earlier(day.AtMidnight().PlusMinutes(UntilMinute > FromMinute ? UntilMinute : UntilMinute + DayMinutes), clockEnd);
                if (from < until)
                {
                    found.Add(new(from.WithOffset(stretch.WallOffset).ToInstant(), until.WithOffset(stretch.WallOffset).ToInstant()));
                }
            }
        }

        return Joined(found);
    }

    private static List<Interval> Joined(List<Interval> inOrder)
    {
        var joined = new List<Interval>(inOrder.Count);
        foreach (var hours in inOrder)
        {
            if (joined.Count > 0 && joined[^1].End >= hours.Start)
            {
                joined[^1] = new(joined[^1].Start, Instant.Max(joined[^1].End, hours.End));
            }
            else
            {
                joined.Add(hours);
            }
        }

        return joined;
    }

    private static LocalDateTime LocalAt(Instant instant, Offset offset) => instant.WithOffset(offset).LocalDateTime;

    private static LocalDateTime Later(LocalDateTime a, LocalDateTime b) => a > b ? a : b;

    private static LocalDateTime Earlier(LocalDateTime a, LocalDateTime b) => a < b ? a : b;
}

/// <summary>A limit of the charging current by hours of the day.</summary>
/// <param name="Hours">When it holds.</param>
/// <param name="MostA">The most current. [A, per phase]</param>
public sealed record DailyCurrentLimit(DailyHours Hours, double MostA);
