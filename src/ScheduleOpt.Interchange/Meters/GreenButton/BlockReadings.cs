using NodaTime;
using ScheduleOpt.Interchange.Meters.Series;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Brings the readings of one meter reading together: their times completed, in UTC, ranked by when their entries were updated.</summary>
internal sealed class BlockReadings(EspiFeed feed, MeterFileOptions options, ReadingNotes notes)
{
    /// <summary>Collects; faults where a reading has no time.</summary>
    public RawReading[] Collect(IReadOnlyList<IntervalBlock> blocks, ReadingType type)
    {
        var collected = new RawReading[blocks.Sum(b => b.Count)];
        var seen = new Dictionary<long, int>();
        int next = 0, assumed = 0;
        // An entry updated later has the higher rank; in one entry, and in entries of the same time, what stands later.
        foreach (var block in blocks.Select((b, i) => (b, i)).OrderBy(p => p.b.Links.Updated).ThenBy(p => p.i).Select(p => p.b))
        {
            var length = type.IntervalLength is > 0 and var stated ? stated
                : block.Count > 0 && block.Duration > 0 && block.Duration % block.Count == 0 ? (int)(block.Duration / block.Count)
                : 0;
            var cursor = block.Start;
            for (var i = block.First; i < block.First + block.Count; i++)
            {
                var reading = feed.Readings[i];
                var isRegister = type.Accumulation is ReadingType.Register or ReadingType.Summation;
                var start = reading.Start != EspiFeed.NoStart ? reading.Start : cursor;
                var duration = reading.Duration > 0 || (reading.Duration == 0 && isRegister) ? reading.Duration : length;
                assumed += reading.Start == EspiFeed.NoStart || (reading.Duration <= 0 && !isRegister) ? 1 : 0;
                if (start is not { } at || (duration == 0 && !isRegister) || at > PayloadReader.Latest - duration)
                {
                    notes.Fault(block.Pointer,
                        "A reading must have a time: its own, or the block's start and the reading type's intervalLength.", $"reading {i - block.First}");
                    return [];
                }

                cursor = at + (duration > 0 ? duration : length);
                at = options.EpochSeconds == EpochSeconds.Local ? FromLocal(at, seen) : at;
                collected[next] = reading.With(at, duration, reading.Value).WithRank(next);
                next++;
            }
        }

        if (assumed > 0)
        {
            notes.Guess($"{assumed} readings state no time or no length: they follow one another in the reading type's intervals.");
        }

        return collected;
    }

    private long FromLocal(long second, Dictionary<long, int> seen)
    {
        var mapping = options.Zone.MapLocal(Instant.FromUnixTimeSeconds(second).InUtc().LocalDateTime);
        if (mapping.Count < 2)
        {
            return options.Zone.AtLeniently(mapping.LocalDateTime).ToInstant().ToUnixTimeSeconds();
        }

        // The hour that the clock shows twice: the first time it is written, and the second.
        var times = seen[second] = seen.GetValueOrDefault(second) + 1;
        return (times == 1 ? mapping.First() : mapping.Last()).ToInstant().ToUnixTimeSeconds();
    }
}
