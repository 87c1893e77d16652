using ScheduleOpt.Interchange.Meters;
using ScheduleOpt.Interchange.Meters.Csv;

namespace ScheduleOpt.Interchange.Prices;

/// <summary>Where a table of prices has what.</summary>
/// <param name="Date">Column of dates, or of dates with times.</param>
/// <param name="Time">Column of times, where dates stand alone.</param>
/// <param name="Price">Column of prices.</param>
/// <param name="Divisor">What its numbers are divided by to be for a kWh.</param>
/// <param name="IsEnd">Whether a time is the end of its interval.</param>
internal sealed record PriceColumns(int Date, int? Time, int Price, decimal Divisor, bool IsEnd)
{
    private const decimal KwhInMwh = 1000, CentsInUnit = 100;
    private static readonly string[] PriceWords = ["price", "lmp", "rate", "per kwh", "/kwh", "/mwh", "usd", "eur", "cent"];

    /// <summary>Finds the columns; none, with a fault, where they can't be told.</summary>
    public static PriceColumns? Find(TableSample sample, ReadingNotes notes)
    {
        var columns = new TableColumns(sample, notes);
        if ((columns.First(ColumnKind.DateAndTime) ?? columns.First(ColumnKind.Date)) is not { } date)
        {
            notes.Fault("#", "The table must have a column of dates, with the time or a column of times beside it.", string.Join(", ", sample.Header));
            return null;
        }

        int? time = sample.Kinds[date] == ColumnKind.DateAndTime ? null : columns.First(ColumnKind.Time) ?? Hour(sample, columns, date);
        if (sample.Kinds[date] == ColumnKind.Date && time is null && sample.Data.Skip(1).Any())
        {
            notes.Guess("Each price is for a whole day.");
        }

        var numbers = columns.All(ColumnKind.Number).Where(c => c != time).ToArray();
        var named = numbers.Where(c => columns.HasWord(c, PriceWords)).ToArray();
        if ((named.Length > 0 ? named : numbers) is not [var price])
        {
            notes.Fault("#", "The table must have one column of prices that can be told from the others, such as 'price per kWh'.", string.Join(", ", sample.Header));
            return null;
        }

        return new(date, time, price, DivisorOf(sample, price, notes), IsEndOf(sample, time ?? date, notes));
    }

    /// <summary>Date and time of a row; midnight where prices are for whole days.</summary>
    public Stamp? StampOf(string[] cells, StampText stamps)
    {
        if (Date >= cells.Length || !stamps.TryParse(cells[Date], out var date) || date.Date is null)
        {
            return null;
        }

        if (Time is not { } column)
        {
            return date.SecondOfDay is null ? date with { SecondOfDay = 0 } : date;
        }

        if (column >= cells.Length)
        {
            return null;
        }

        var second = stamps.TryParse(cells[column], out var time) ? time.SecondOfDay : StampText.SecondOfHour(cells[column]);
        return second is null ? null : new Stamp(date.Date, second, time.Offset ?? date.Offset);
    }

    // Hours as numbers, 0 to 23 or 1 to 24.
    private static int? Hour(TableSample sample, TableColumns columns, int date) => columns.All(ColumnKind.Number).Cast<int?>().FirstOrDefault(c =>
        c != date && (TableColumns.HasToken(sample.Name(c!.Value), "hour") || TableColumns.HasToken(sample.Name(c.Value), "he"))
        && sample.Data.All(r => c.Value < r.Length && StampText.SecondOfHour(r[c.Value]) is not null));

    private static decimal DivisorOf(TableSample sample, int price, ReadingNotes notes)
    {
        var text = $"{sample.Name(price)} {sample.Preamble}";
        decimal divisor = 1;
        if (text.Contains("mwh", StringComparison.Ordinal))
        {
            divisor = KwhInMwh;
            notes.Guess("Prices are for each MWh, as the table says; divided by 1000.");
        }

        if (text.Contains("cent", StringComparison.Ordinal) || text.Contains('¢') || TableColumns.HasToken(text, "ct") || TableColumns.HasToken(text, "c"))
        {
            divisor *= CentsInUnit;
            notes.Guess("Prices are in hundredths of the currency, as the table says; divided by 100.");
        }

        return divisor;
    }

    private static bool IsEndOf(TableSample sample, int column, ReadingNotes notes)
    {
        var isEnd = TableColumns.IsEnd(sample.Name(column)) || TableColumns.HasToken(sample.Name(column), "he")
            || sample.Data.Any(r => column < r.Length
                && (sample.Stamps.TryParse(r[column], out var s) ? s.SecondOfDay : StampText.SecondOfHour(r[column])) == 86_400);
        notes.Guess(isEnd ? "A time is the end of its interval." : "A time is the start of its interval.");
        return isEnd;
    }
}
