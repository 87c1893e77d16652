using NodaTime;
using ScheduleOpt.Interchange.Meters.Series;

namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Reads the rows of a table by its layout.</summary>
internal sealed class TableReader(TableLayout layout, ReadingNotes notes)
{
    /// <summary>Stands for the length of a local day, whatever it is.</summary>
    public const int WholeDay = -1;

    private readonly ReadingList delivered = [], received = [], net = [];
    private readonly Dictionary<long, int> steps = [];
    private long? before;
    private readonly ReadingValues values = new(layout, notes);
    private int rows, notRows, otherServices, inclusiveEnds;

    /// <summary>The length that most rows state, or by which most follow one another, blank ones included; zero where none does. [s]</summary>
    public int CommonLength => steps.Count == 0 ? 0 : (int)steps.OrderByDescending(c => c.Value).ThenBy(c => c.Key).First().Key;

    /// <summary>Readings by flow; none for a net flow. Flows without readings are left out.</summary>
    public IReadOnlyList<(FlowDirection? Direction, ReadingList Readings)> Read(CsvRows table)
    {
        for (var skipped = 0; skipped < layout.FirstRow && table.Next() is not null; skipped++)
        {
        }

        while (table.Next() is var (line, cells))
        {
            if (cells.All(c => c.Length == 0))
            {
                continue;
            }

            if (!layout.Stamps.TryParse(Cell(cells, layout.Date), out var date) || date.Date is null)
            {
                notRows++;
            }
            else
            {
                rows++;
                Take(line, cells, date);
            }
        }

        Tell();
        (FlowDirection? Direction, ReadingList Readings)[] flows = [(FlowDirection.Delivered, delivered), (FlowDirection.Received, received), (null, net)];
        return [.. flows.Where(f => f.Readings.Count > 0)];
    }

    private void Take(int line, string[] cells, Stamp date)
    {
        FlowDirection? stated = null;
        if (layout.Kind is { } kind)
        {
            var word = Cell(cells, kind).ToLowerInvariant();
            if (word.Contains("gas", StringComparison.Ordinal) || word.Contains("water", StringComparison.Ordinal))
            {
                otherServices++;
                return;
            }

            stated = word.Contains("generation", StringComparison.Ordinal) || word.Contains("export", StringComparison.Ordinal)
                || word.Contains("received", StringComparison.Ordinal)
                ? FlowDirection.Received
                : null;
        }

        var quality = layout.Quality is { } column ? QualityOf(Cell(cells, column)) : ReadingQuality.NotStated;
        if (layout.DayColumns.Count > 0)
        {
            TakeDay(line, cells, date, stated ?? FlowDirection.Delivered, quality);
            return;
        }

        var start = date;
        if (layout.Time is { } timeColumn)
        {
            var second = layout.Stamps.TryParse(Cell(cells, timeColumn), out var time) ? time.SecondOfDay : StampText.SecondOfHour(Cell(cells, timeColumn));
            if (second is null)
            {
                notRows++;
                return;
            }

            start = new(date.Date, second, time.Offset ?? date.Offset);
        }

        var duration = start.SecondOfDay is null && layout.Time is null && layout.End is null ? WholeDay : Duration(start, cells);
        Count(Utc(start), duration);
        foreach (var (valueColumn, direction) in layout.Values)
        {
            if (values.Read(line, Cell(cells, valueColumn)) is { } value)
            {
                Add(stated ?? direction, new(Utc(start), start.Offset is null ? StampClock.Table : StampClock.Utc, 0, duration, value, quality));
            }
        }
    }

    private void Count(long stamp, int duration)
    {
        var step = duration == WholeDay ? 86_400 : duration > 0 ? duration : Math.Abs(stamp - (before ?? stamp));
        before = stamp;
        if (step is > 0 and <= 86_400 && (steps.TryGetValue(step, out var count) || steps.Count < 1500))
        {
            steps[step] = count + 1;
        }
    }

    private static long Utc(Stamp stamp) => stamp.Seconds - (stamp.Offset?.Seconds ?? 0);

    private int Duration(Stamp start, string[] cells)
    {
        if (layout.End is not { } column || !layout.Stamps.TryParse(Cell(cells, column), out var end) || end.SecondOfDay is null)
        {
            return 0;
        }

        var length = (end.Date is null ? new Stamp(start.Date, end.SecondOfDay, null).Seconds : end.Seconds) - start.Seconds;
        length += end.Date is null && length <= 0 ? 86_400 : 0;
        // 00:00 to 00:59 is an hour, and so is 00:00:00 to 00:59:59.
        var inclusive = length % 300 == 0 ? 0 : (length + 60) % 300 == 0 ? 60 : (length + 1) % 300 == 0 ? 1 : 0;
        inclusiveEnds += inclusive > 0 ? 1 : 0;
        return length + inclusive is > 0 and <= 400 * 86_400 ? (int)length + inclusive : 0;
    }

    private void TakeDay(int line, string[] cells, Stamp date, FlowDirection direction, ReadingQuality quality)
    {
        var columns = layout.DayColumns;
        var slots = columns.Count is 25 or 50 or 100 ? columns.Count * 24 / 25 : columns.Count;
        var length = 86_400 / slots;
        var extra = columns.Count - slots;
        var first = layout.ExtraColumn ?? slots;
        var hasExtra = extra > 0 && Enumerable.Range(first, extra).Any(c => c < columns.Count && !NumberText.IsBlank(Cell(cells, columns[c]))
            && Cell(cells, columns[c]) is not ("0" or "0.0" or "0.00"));
        var slot = 0;
        Count(0, length);
        for (var c = 0; c < columns.Count; c++)
        {
            var isExtra = c >= first && c < first + extra;
            if (isExtra && !hasExtra)
            {
                continue;
            }

            if (values.Read(line, Cell(cells, columns[c])) is { } value)
            {
                var midnight = new Stamp(date.Date, 0, null).Seconds;
                Add(direction, hasExtra
                    ? new(midnight, StampClock.SinceMidnight, slot * length, length, value, quality)
                    : new(midnight + ((long)slot * length), StampClock.Table, 0, length, value, quality));
            }

            slot++;
        }
    }

    private void Add(FlowDirection? direction, TableReading reading)
    {
        if (delivered.Count + received.Count + net.Count >= MeterLimits.Readings)
        {
            throw new FileRefusedException(new("#", $"A file must not have more than {MeterLimits.Readings} readings."));
        }

        (direction switch { FlowDirection.Delivered => delivered, FlowDirection.Received => received, _ => net }).Add(reading);
    }

    private void Tell()
    {
        if (notRows > 0)
        {
            notes.Skip($"{notRows} rows without a date and time were not read.");
        }

        if (notRows > rows)
        {
            notes.Fault("#/csv/dateColumn", "Most rows must have a date and time that can be read.", $"{notRows} of {notRows + rows} have none");
        }

        if (otherServices > 0)
        {
            notes.Skip($"{otherServices} rows of gas or water were not read.");
        }

        if (values.Blanks > 0)
        {
            notes.Warn($"{values.Blanks} readings are blank and count as missing, not as zero.");
        }

        if (inclusiveEnds > 0)
        {
            notes.Guess("An end such as 00:59 is the last minute of its interval.");
        }
    }

    private static ReadingQuality QualityOf(string word) => word.ToLowerInvariant() switch
    {
        "" => ReadingQuality.NotStated,
        ['e', 's', 't', ..] or "e" or "yes" or "y" or "true" => ReadingQuality.Estimated,
        ['a', 'c', 't', ..] or ['v', 'a', 'l', ..] or "a" or "no" or "n" or "false" => ReadingQuality.Valid,
        _ => ReadingQuality.Other,
    };

    private static string Cell(string[] cells, int column) => column < cells.Length ? cells[column] : "";
}
