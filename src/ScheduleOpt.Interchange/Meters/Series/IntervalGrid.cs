namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>Equal intervals into which readings are sorted.</summary>
/// <param name="Start">When the first begins. [s since 1970, UTC]</param>
/// <param name="Length">Length of each. [s]</param>
/// <param name="Count">How many there are.</param>
internal sealed record IntervalGrid(long Start, int Length, long Count)
{
    private const int Day = 86_400, Hour = 3600, Minute = 60;

    // Series are in whole minutes: readings of other lengths are added up to one of these.
    private static readonly int[] WholeMinutes = [Minute, 5 * Minute, 10 * Minute, 15 * Minute, 30 * Minute, Hour];

    /// <summary>Finds the grid of readings that are in order and don't overlap, at least one.</summary>
    public static IntervalGrid Of(ReadOnlySpan<RawReading> readings)
    {
        var length = MostCommon(readings, static (r, _) => r.Duration, 0);
        if (length > Hour && Day % length != 0)
        {
            // A day of 23 or 25 hours, as a rule.
            length = Hour;
        }
        else if (length % Minute != 0)
        {
            var given = (int)length;
            length = Array.Find(WholeMinutes, m => m % given == 0);
            length = length == 0 ? Hour : length;
        }

        var offset = MostCommon(readings, static (r, l) => Modulo(r.Start, l), length);
        if (length > Hour && Misaligned(readings, length, offset))
        {
            // Whole days on both sides of a clock change, as a rule.
            (length, offset) = (Hour, MostCommon(readings, static (r, l) => Modulo(r.Start, l), Hour));
        }

        var start = readings[0].Start - Modulo(readings[0].Start - offset, length);
        return new(start, (int)length, (readings[^1].End - start + length - 1) / length);
    }

    private static bool Misaligned(ReadOnlySpan<RawReading> readings, long length, long offset)
    {
        foreach (var reading in readings)
        {
            if (Modulo(reading.Start - offset, length) != 0)
            {
                return true;
            }
        }

        return false;
    }

    private static long MostCommon(ReadOnlySpan<RawReading> readings, Func<RawReading, long, long> value, long argument)
    {
        var counts = new Dictionary<long, int>();
        foreach (var reading in readings)
        {
            var key = value(reading, argument);
            if (counts.TryGetValue(key, out var count) || counts.Count < 10_000)
            {
                counts[key] = count + 1;
            }
        }

        // Of equally common ones the smallest.
        return counts.OrderByDescending(c => c.Value).ThenBy(c => c.Key).First().Key;
    }

    private static long Modulo(long value, long divisor) => ((value % divisor) + divisor) % divisor;
}
