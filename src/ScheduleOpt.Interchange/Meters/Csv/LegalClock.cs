using NodaTime;

namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Finds the instants that times of the legal clock mean: by what continues the reading before, where there is a choice.</summary>
internal sealed class LegalClock(DateTimeZone zone)
{
    /// <summary>Seconds since 1970 on a clock as the time that it shows.</summary>
    public static LocalDateTime LocalOf(long second) => Instant.FromUnixTimeSeconds(second).InUtc().LocalDateTime;

    /// <summary>Of the instants that a clock time may mean, the one that continues the reading before; else the first after it.</summary>
    public (long Start, bool IsSkipped) Start(long local, int shift, long before)
    {
        var candidates = Instants(local);
        if (candidates is [var only] && shift == 0)
        {
            return (only, false);
        }

        // An end may be read off the clock itself: at a change it is then not the start plus the interval.
        var ends = shift > 0 ? Instants(local + shift) : [];
        foreach (var candidate in candidates)
        {
            if (candidate == before)
            {
                return (candidate, false);
            }
        }

        foreach (var end in ends)
        {
            if (end - shift == before)
            {
                return (before, false);
            }
        }

        foreach (var candidate in candidates)
        {
            if (candidate > before)
            {
                return (candidate, false);
            }
        }

        return candidates.Length > 0 ? (candidates[0], false)
            : ends.Length > 0 ? (ends[0] - shift, false)
            : (zone.AtLeniently(LocalOf(local)).ToInstant().ToUnixTimeSeconds(), true);
    }

    /// <summary>A row whose two clock times are further apart, or closer, than its energy took, because the clock changed between them.</summary>
    public long? AcrossChange(TableReading reading, int length, long before)
    {
        var start = Start(reading.Stamp, 0, before).Start;
        var shown = zone.GetUtcOffset(Instant.FromUnixTimeSeconds(start + length)).Seconds + start + length;
        return shown == reading.Stamp + reading.Duration ? start : null;
    }

    /// <summary>The instants at which the clock shows a time: none where it is skipped, two where it is repeated.</summary>
    public long[] Instants(long local)
    {
        var mapping = zone.MapLocal(LocalOf(local));
        return mapping.Count switch
        {
            0 => [],
            1 => [mapping.Single().ToInstant().ToUnixTimeSeconds()],
            _ => [mapping.First().ToInstant().ToUnixTimeSeconds(), mapping.Last().ToInstant().ToUnixTimeSeconds()],
        };
    }
}
