namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>The first rows of a table, looked at: where readings begin, what the columns hold.</summary>
internal sealed class TableSample
{
    private const int Enough = 200;

    private readonly IReadOnlyList<(int Line, string[] Cells)> rows;

    public TableSample(CsvRows table, MeterFileOptions options, ReadingNotes notes)
    {
        rows = table.Sample;
        Stamps = new(options.Csv.DateOrder ?? OrderOf(options, notes));
        FirstRow = Math.Clamp(options.Csv.RowsBeforeReadings ?? FindFirstRow(), 0, rows.Count);
        var header = FirstRow > 0 ? Enumerable.Range(0, FirstRow).Reverse().Select(i => rows[i].Cells).FirstOrDefault(c =>
            c.Count(t => t.Length > 0) > 1) : null;
        Header = header ?? [];
        // 0,31 can't group thousands; 1,028 could, where commas separate cells.
        var comma = Data.Any(r => r.Any(c => NumberText.LooksLikeDecimalComma(c) && (table.Delimiter != ',' || c.Length - c.IndexOf(',') != 4)))
            && !Data.Any(r => r.Any(c => c.Contains('.') && decimal.TryParse(c, out _)));
        if (comma)
        {
            notes.Guess("A comma is the decimal mark.");
        }

        Numbers = new(table.Delimiter, comma);
        Kinds = [.. Enumerable.Range(0, Data.Select(r => r.Length).DefaultIfEmpty(0).Max()).Select(KindOf)];
    }

    public StampText Stamps { get; }

    public NumberText Numbers { get; }

    /// <summary>Number of the first row of readings, from 0; past the end where there is none.</summary>
    public int FirstRow { get; }

    /// <summary>The row of column names; empty where there is none.</summary>
    public string[] Header { get; }

    public IReadOnlyList<ColumnKind> Kinds { get; }

    /// <summary>Rows of readings.</summary>
    public IEnumerable<string[]> Data => rows.Skip(FirstRow).Take(Enough).Select(r => r.Cells).Where(c => c.Any(t => t.Length > 0));

    /// <summary>Everything above the readings, in small letters.</summary>
    public string Preamble => string.Join(' ', rows.Take(FirstRow).SelectMany(r => r.Cells)).ToLowerInvariant();

    /// <summary>Name of a column in small letters without marks; empty where it has none.</summary>
    public string Name(int column) => column < Header.Length ? Header[column].ToLowerInvariant() : "";

    // Readings begin where a column holds dates in this row and in the next.
    private int FindFirstRow()
    {
        var filled = Enumerable.Range(0, rows.Count).Where(i => rows[i].Cells.Any(t => t.Length > 0)).ToArray();
        for (var f = 0; f < filled.Length; f++)
        {
            var cells = rows[filled[f]].Cells;
            var following = f + 1 < filled.Length ? rows[filled[f + 1]].Cells : null;
            for (var c = 0; c < cells.Length; c++)
            {
                if (IsDate(cells[c]) && (following is null || (c < following.Length && IsDate(following[c]))))
                {
                    return filled[f];
                }
            }
        }

        return rows.Count;
    }

    private bool IsDate(string cell) => Stamps.TryParse(cell, out var stamp) && stamp.Date is not null;

    private ColumnKind KindOf(int column)
    {
        var counts = new Dictionary<ColumnKind, int>();
        foreach (var cells in Data)
        {
            var cell = column < cells.Length ? cells[column] : "";
            var kind = NumberText.IsBlank(cell) ? ColumnKind.Blank
                : Stamps.TryParse(cell, out var stamp) ? stamp.HasBoth ? ColumnKind.DateAndTime : stamp.Date is not null ? ColumnKind.Date : ColumnKind.Time
                : Numbers.TryParse(cell, out _) ? ColumnKind.Number
                : ColumnKind.Other;
            counts[kind] = counts.GetValueOrDefault(kind) + 1;
        }

        counts.Remove(ColumnKind.Blank);
        if (counts.Count == 0)
        {
            return ColumnKind.Blank;
        }

        // Midnight is written without a time by some programs.
        return counts.ContainsKey(ColumnKind.DateAndTime) ? ColumnKind.DateAndTime : counts.MaxBy(c => c.Value).Key;
    }

    private DateOrder OrderOf(MeterFileOptions options, ReadingNotes notes)
    {
        var numbers = rows.SelectMany(r => r.Cells).Select(StampText.NumbersOf).OfType<(int First, int Second)>().ToArray();
        if (numbers.Length == 0)
        {
            return DateOrder.YearMonthDay;
        }

        if (numbers.Any(n => n.First > 12) != numbers.Any(n => n.Second > 12))
        {
            return numbers.Any(n => n.First > 12) ? DateOrder.DayMonthYear : DateOrder.MonthDayYear;
        }

        // Neither number tells: days follow one another, months don't.
        var (firstSteps, secondSteps) = (Changes(numbers, n => n.First), Changes(numbers, n => n.Second));
        var american = options.Zone.Id.StartsWith("America/", StringComparison.Ordinal)
            || options.Zone.Id.StartsWith("US/", StringComparison.Ordinal) || options.Zone.Id == "Pacific/Honolulu";
        var order = firstSteps > secondSteps ? DateOrder.DayMonthYear
            : secondSteps > firstSteps || american ? DateOrder.MonthDayYear
            : DateOrder.DayMonthYear;
        notes.Guess(order == DateOrder.MonthDayYear ? "Dates are month, day, year." : "Dates are day, month, year.");
        return order;
    }

    private static int Changes((int First, int Second)[] numbers, Func<(int First, int Second), int> part) =>
        Enumerable.Range(1, numbers.Length - 1).Count(i => part(numbers[i]) != part(numbers[i - 1]));
}
