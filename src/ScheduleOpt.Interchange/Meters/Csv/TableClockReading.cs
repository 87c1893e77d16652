using NodaTime;
using ScheduleOpt.Interchange.Meters.Series;

namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Turns the times of a table into instants: labels at start or end, the hour that is skipped, the hour that is written twice, once or
/// not at all.</summary>
internal sealed class TableClockReading(TableLayout layout, int commonLength, MeterFileOptions options, ReadingNotes notes)
{
    private readonly DateTimeZone zone = options.Zone;
    private readonly LegalClock legal = new(options.Zone);
    private TableClock clock;
    private int length;

    /// <summary>Readings in UTC, in millionths of a kWh.</summary>
    public Memory<RawReading> Resolve(ReadingList readings)
    {
        if (IsDescending(readings))
        {
            readings.Reverse();
        }

        length = options.Csv.IntervalMinutes * 60 ?? commonLength;
        if (length == 0)
        {
            notes.Fault("#/csv/intervalMinutes", "The length of an interval can't be told from the table; state it.");
            return Memory<RawReading>.Empty;
        }

        clock = options.Csv.Clock ?? GuessClock(readings);
        var raw = new RawReading[options.Csv.RepeatedHour == RepeatedHour.BothTogether ? readings.Count * 2 : readings.Count];
        var count = 0;
        var before = long.MinValue;
        int inGap = 0, halves = 0;
        for (var i = 0; i < readings.Count; i++)
        {
            var reading = readings[i];
            var (start, duration, isSkipped) = Place(reading, before);
            if (isSkipped && reading.Value == 0)
            {
                inGap++;
                continue;
            }

            before = start + duration;
            if (start < Earliest || before > Latest)
            {
                notes.Fault("#/csv/dateColumn", "Dates must lie in the years 1900 to 2199.");
                return Memory<RawReading>.Empty;
            }

            var energy = layout.Unit is MeterUnit.Kilowatts or MeterUnit.Watts
                ? (long)Math.Round(reading.Value * (decimal)duration / 3600, MidpointRounding.AwayFromZero)
                : reading.Value;
            if (options.Csv.RepeatedHour == RepeatedHour.BothTogether && IsWrittenOnce(readings, i))
            {
                halves++;
                raw[count] = new(start, duration, energy - (energy / 2), count++, reading.Quality);
                raw[count] = new(start + RepeatAfter(reading), duration, energy / 2, count++, reading.Quality);
            }
            else
            {
                raw[count] = new(start, duration, energy, count++, reading.Quality);
            }
        }

        Tell(inGap, halves, readings);
        return raw.AsMemory(0, count);
    }

    private static readonly long Earliest = Tariffs.MeteredSeries.Earliest.ToUnixTimeSeconds(), Latest = Tariffs.MeteredSeries.Latest.ToUnixTimeSeconds();

    private void Tell(int inGap, int halves, ReadingList readings)
    {
        if (inGap > 0)
        {
            notes.Guess($"{inGap} zero readings at times that the clock skipped were left out.");
        }

        if (halves > 0)
        {
            notes.Guess($"{halves} readings stand once for an hour that the clock showed twice; each was halved.");
        }

        if (options.Csv.Clock is null && readings.Any(r => r.Clock == StampClock.Table))
        {
            notes.Guess(clock == TableClock.StandardTime
                ? $"Times are the standard time of {zone.Id} all the year: the table has readings at the hour that the legal clock skips."
                : $"Times are the legal time of {zone.Id}.");
        }
    }

    private (long Start, int Duration, bool IsSkipped) Place(TableReading reading, long before)
    {
        if (reading.Duration == TableReader.WholeDay)
        {
            var day = LegalClock.LocalOf(reading.Stamp).Date;
            var (first, next) = (zone.AtStartOfDay(day).ToInstant().ToUnixTimeSeconds(), zone.AtStartOfDay(day.PlusDays(1)).ToInstant().ToUnixTimeSeconds());
            return (first, (int)(next - first), false);
        }

        var duration = reading.Duration > 0 ? reading.Duration : length;
        var shift = layout.Label == StampLabel.End && layout.DayColumns.Count == 0 ? duration : 0;
        switch (reading.Clock)
        {
            case StampClock.Utc:
                return (reading.Stamp - shift, duration, false);
            case StampClock.SinceMidnight:
                return (zone.AtStartOfDay(LegalClock.LocalOf(reading.Stamp).Date).ToInstant().ToUnixTimeSeconds() + reading.Elapsed, duration, false);
        }

        if (clock == TableClock.Utc)
        {
            return (reading.Stamp - shift, duration, false);
        }

        if (clock == TableClock.StandardTime)
        {
            var near = Instant.FromUnixTimeSeconds(reading.Stamp - shift);
            var offset = zone.GetZoneInterval(near - Duration.FromSeconds(zone.GetUtcOffset(near).Seconds)).StandardOffset.Seconds;
            return (reading.Stamp - shift - offset, duration, false);
        }

        if (reading.Duration > 0 && reading.Duration != length && legal.AcrossChange(reading, length, before) is { } start)
        {
            return (start, length, false);
        }

        var (at, isSkipped) = legal.Start(reading.Stamp - shift, shift, before);
        return (at, duration, isSkipped);
    }

    private long StartShown(TableReading reading) => reading.Stamp - (layout.Label == StampLabel.End && layout.DayColumns.Count == 0 ? length : 0);

    private bool IsWrittenOnce(ReadingList readings, int index)
    {
        var reading = readings[index];
        if (clock != TableClock.LegalTime || reading.Clock != StampClock.Table || reading.Duration == TableReader.WholeDay)
        {
            return false;
        }

        var local = StartShown(reading);
        return legal.Instants(local).Length == 2 && !Near(readings, index, local);
    }

    private long RepeatAfter(TableReading reading) => legal.Instants(StartShown(reading)) is [var first, var second] ? second - first : 0;

    // Whether the same clock time stands in another row close by: four hours of quarter hours at most.
    private bool Near(ReadingList readings, int index, long local)
    {
        for (var i = Math.Max(0, index - 20); i < Math.Min(readings.Count, index + 21); i++)
        {
            if (i != index && StartShown(readings[i]) == local)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Standard time all the year shows itself by readings all through the hour that the legal clock skips, and by no hour written twice.</summary>
    private TableClock GuessClock(ReadingList readings)
    {
        var shown = readings.Where(r => r.Clock == StampClock.Table && r.Duration != TableReader.WholeDay && r.Value != 0).Select(StartShown);
        if (!shown.Any())
        {
            return TableClock.LegalTime;
        }

        // Clock times that are skipped, as spans.
        var skips = zone.GetZoneIntervals(Instant.FromUnixTimeSeconds(shown.Min() - 86_400), Instant.FromUnixTimeSeconds(shown.Max() + 86_400))
            .Where(i => i.HasEnd).Select(i => (From: i.End.ToUnixTimeSeconds() + i.WallOffset.Seconds, To: i.End.ToUnixTimeSeconds()
                + zone.GetUtcOffset(i.End).Seconds))
            .Where(s => s.To > s.From).ToArray();
        var near = shown.Where(l => Array.Exists(skips, s => l >= s.From - length && l < s.To)).ToHashSet();
        return Array.Exists(skips, s => near.Contains(s.From) && near.Contains(s.From - length)) ? TableClock.StandardTime : TableClock.LegalTime;
    }

    private static bool IsDescending(ReadingList readings)
    {
        var fall = 0;
        for (var i = 1; i < readings.Count; i++)
        {
            fall += readings[i].Stamp.CompareTo(readings[i - 1].Stamp);
        }

        return fall < 0;
    }
}
