using NodaTime;

namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>Finds intervals without a reading and fills them by the rule that was chosen.</summary>
internal static class GapFilling
{
    private const int Weeks = 4;

    /// <summary>Runs of missing intervals among those from <paramref name="first"/> to before <paramref name="end"/>.</summary>
    public static List<(int First, int Count)> Find(Intervals intervals, int first, int end)
    {
        var runs = new List<(int First, int Count)>();
        for (var i = first; i < end; i++)
        {
            if (intervals.IsMissing(i))
            {
                var start = i;
                while (i < end && intervals.IsMissing(i))
                {
                    i++;
                }

                runs.Add((start, i - start));
            }
        }

        return runs;
    }

    /// <summary>Values of the missing intervals, in their order: the mean of the same local time in the nearest week that has it.</summary>
    /// <returns>Null where an interval has no such neighbour; then <paramref name="unfilled"/> is that interval.</returns>
    public static List<long>? Neighbours(Intervals intervals, List<(int First, int Count)> runs, DateTimeZone zone, out int unfilled)
    {
        var values = new List<long>();
        foreach (var (first, count) in runs)
        {
            for (var i = first; i < first + count; i++)
            {
                if (Neighbour(intervals, i, zone) is not { } value)
                {
                    unfilled = i;
                    return null;
                }

                values.Add(value);
            }
        }

        unfilled = -1;
        return values;
    }

    private static long? Neighbour(Intervals intervals, int interval, DateTimeZone zone)
    {
        var local = Instant.FromUnixTimeSeconds(intervals.StartOf(interval)).InZone(zone).LocalDateTime;
        for (var week = 1; week <= Weeks; week++)
        {
            Int128 sum = 0;
            var found = 0;
            foreach (var other in new[] { local.PlusWeeks(-week), local.PlusWeeks(week) })
            {
                var at = intervals.At(zone.AtLeniently(other).ToInstant().ToUnixTimeSeconds());
                if (at >= 0 && at < intervals.Count && !intervals.IsMissing((int)at))
                {
                    sum += intervals[(int)at];
                    found++;
                }
            }

            if (found > 0)
            {
                return (long)((sum + (sum < 0 ? -(found / 2) : found / 2)) / found);
            }
        }

        return null;
    }
}
