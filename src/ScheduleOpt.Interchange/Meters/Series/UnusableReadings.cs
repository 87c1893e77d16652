namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>Leaves out readings that can't become use at a time.</summary>
internal static class UnusableReadings
{
    /// <summary>Keeps the usable readings at the front.</summary>
    /// <returns>How many were left out.</returns>
    public static int Drop(MeteredFlow flow, ref Span<RawReading> readings, ReadingNotes notes)
    {
        int kept = 0, negative = 0, longer = 0;
        for (var i = 0; i < readings.Length; i++)
        {
            var reading = readings[i];
            if (reading.Value < 0 && flow.Direction is not null)
            {
                negative++;
            }
            else if (reading.Duration > 86_400 + 3600)
            {
                longer++;
            }
            else if (reading.Duration > 0)
            {
                readings[kept++] = reading;
            }
        }

        if (negative > 0)
        {
            notes.Warn($"{flow.Name}: {negative} negative readings were left out and count as missing: a flow in one direction can't be negative. If it is a net flow, the file should say so.");
        }

        if (longer > 0)
        {
            notes.Warn($"{flow.Name}: {longer} readings of more than a day were left out: they do not say when energy was used.");
        }

        var dropped = readings.Length - kept;
        readings = readings[..kept];
        return dropped;
    }
}
