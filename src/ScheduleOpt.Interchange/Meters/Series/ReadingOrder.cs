namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>Puts readings in order and takes out those that say the same time twice.</summary>
internal static class ReadingOrder
{
    /// <summary>Sorts in place.</summary>
    /// <returns>How many readings at the front are left, and what was taken out.</returns>
    public static (int Kept, int Duplicates, int Overlaps) Sort(Span<RawReading> readings)
    {
        readings.Sort(static (a, b) =>
            a.Start != b.Start ? a.Start.CompareTo(b.Start)
            : a.Duration != b.Duration ? a.Duration.CompareTo(b.Duration)
            : b.Rank.CompareTo(a.Rank));
        int kept = 0, duplicates = 0, overlaps = 0;
        foreach (var reading in readings)
        {
            if (kept == 0 || reading.Start >= readings[kept - 1].End)
            {
                readings[kept++] = reading;
            }
            else if (reading.Start == readings[kept - 1].Start && reading.Duration == readings[kept - 1].Duration)
            {
                duplicates++;
            }
            else
            {
                // The shorter of two is the one that was metered; a longer one is as a rule a total over it.
                overlaps++;
                if (reading.Duration < readings[kept - 1].Duration)
                {
                    readings[kept - 1] = reading;
                }
            }
        }

        return (kept, duplicates, overlaps);
    }
}
