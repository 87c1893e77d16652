using NodaTime;
using ScheduleOpt.Interchange.Meters;
using ScheduleOpt.Interchange.Meters.Csv;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Prices;

/// <summary>Reads a table (CSV) of published prices: a time and a price in each row, with the times, separators and decimal marks that a table of meter
/// readings may have.</summary>
public static class PriceTable
{
    private const int MostRows = 100_000;

    /// <summary>Reads a table.</summary>
    /// <param name="text">The text.</param>
    /// <param name="zone">The zone of times without an offset.</param>
    /// <returns>The prices in equal intervals, or every fault, with its line.</returns>
    public static Reading<PublishedPrices> Read(string text, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(zone);
        var notes = new ReadingNotes();
        try
        {
            using var rows = new CsvRows(new StringReader(text.TrimStart('\uFEFF')));
            var sample = new TableSample(rows, new MeterFileOptions { Zone = zone }, notes);
            if (PriceColumns.Find(sample, notes) is { } columns && Rows(rows, sample, columns, notes) is { Count: > 0 } read && notes.FaultCount == 0
                && new PriceRows(read, zone, columns.IsEnd, notes).Series() is { } series)
            {
                return new PublishedPrices(series, [.. notes.Guesses, .. notes.Warnings]);
            }
        }
        catch (FileRefusedException refused)
        {
            return Reading<PublishedPrices>.Refused([.. notes.Faults.Take(99), refused.Fault]);
        }

        return Reading<PublishedPrices>.Refused(notes.FaultCount > 0 ? notes.Faults : [new Fault("#", "The table must have rows with a time and a price.")]);
    }

    private static List<PriceRow> Rows(CsvRows rows, TableSample sample, PriceColumns columns, ReadingNotes notes)
    {
        var read = new List<PriceRow>();
        for (var skipped = 0; skipped < sample.FirstRow && rows.Next() is not null; skipped++)
        {
        }

        while (rows.Next() is var (line, cells))
        {
            if (cells.All(c => c.Length == 0))
            {
                continue;
            }

            if (read.Count == MostRows)
            {
                notes.Fault("#", $"A table of prices may have at most {MostRows} rows.", "", line);
                break;
            }

            if (columns.StampOf(cells, sample.Stamps) is not { } stamp)
            {
                notes.Fault("#", "Each row must begin with a date and a time.", string.Join(" ", cells.Take(2)), line);
                continue;
            }

            var cell = columns.Price < cells.Length ? cells[columns.Price] : "";
            if (NumberText.IsBlank(cell))
            {
                read.Add(new(line, stamp, null));
            }
            else if (sample.Numbers.TryParse(cell, out var price))
            {
                read.Add(new(line, stamp, price / columns.Divisor));
            }
            else
            {
                notes.Fault("#", "Must be a price, or blank where none was published.", cell, line);
            }
        }

        return read;
    }
}
