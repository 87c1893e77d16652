namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Decides where a table has what: by what the client says, then by the names of columns and what they hold. Each guess is noted.</summary>
internal sealed class LayoutGuess(TableSample sample, MeterFileOptions options, ReadingNotes notes)
{
    private static readonly string[] NotReadingsAnywhere = ["cost", "price", "$", "£", "€", "amount", "charge", "temp", "bill"];

    private static readonly string[] NotReadingWords =
        ["rate", "account", "meter", "number", "service", "id", "day", "year", "month", "hour", "total", "sum", "max", "min", "no"];

    private static readonly int[] DayLengths = [24, 25, 48, 50, 96, 100];

    private readonly CsvLayout said = options.Csv;

    /// <summary>The layout; none, with faults, where it can't be told.</summary>
    public TableLayout? Find()
    {
        if (!sample.Data.Any())
        {
            notes.Fault("#", "The table must have rows with a date and a reading.");
            return null;
        }

        if (said.IntervalMinutes is < 1 or > 1440)
        {
            notes.Fault("#/csv/intervalMinutes", "An interval must be 1 to 1440 minutes.", $"{said.IntervalMinutes}");
        }

        if (sample.FirstRow > 1)
        {
            notes.Guess($"Readings begin in row {sample.FirstRow + 1}; what stands above is not read.");
        }

        var before = notes.FaultCount;
        var date = Column(said.DateColumn, "dateColumn") ?? First(ColumnKind.DateAndTime) ?? First(ColumnKind.Date);
        if (date is not { } dates)
        {
            notes.Fault("#/csv/dateColumn", "The table must have a column of dates; name it.");
            return null;
        }

        var dayColumns = DayColumns();
        var values = dayColumns.Length > 0 ? [] : Values();
        var (time, end) = Times(dates);
        var unit = said.Unit ?? Unit(dayColumns.Length > 0 ? [] : [.. values.Select(v => v.Column)]);
        if (dayColumns.Length == 0 && values.Count == 0)
        {
            notes.Fault("#/csv/deliveredColumn", "The table must have a column of readings that can be told from the others; name it.", string.Join(", ", sample.Header));
        }

        if (unit is null)
        {
            notes.Fault("#/csv/unit", "The table does not say the unit of its readings; state it.", string.Join(", ", sample.Header));
        }

        if (notes.FaultCount > before)
        {
            return null;
        }

        var layout = new TableLayout
        {
            FirstRow = sample.FirstRow,
            Stamps = sample.Stamps,
            Numbers = sample.Numbers,
            Date = dates,
            Time = time,
            End = end,
            Values = values,
            DayColumns = dayColumns,
            ExtraColumn = Extra(dayColumns),
            Kind = Named(ColumnKind.Other, "type", "service", "direction", "commodity"),
            Quality = Named(ColumnKind.Other, "quality", "estimat", "status", "flag"),
            Unit = unit!.Value,
            Label = Label(time ?? dates, end),
        };
        Tell(layout);
        return layout;
    }

    private void Tell(TableLayout layout)
    {
        notes.Guess($"Dates: {Shown(layout.Date)}"
            + (layout.Time is { } time ? $"; times: {Shown(time)}" : "")
            + (layout.End is { } end ? $"; ends: {Shown(end)}" : "")
            + (layout.DayColumns.Count > 0 ? $"; a row a day with {layout.DayColumns.Count} columns from {Shown(layout.DayColumns[0])}" : "")
            + string.Concat(layout.Values.Select(v => $"; {v.Direction switch { FlowDirection.Delivered => "delivered", FlowDirection.Received => "received", _ => "net" }}: {Shown(v.Column)}"))
            + $"; unit: {layout.Unit switch { MeterUnit.KilowattHours => "kWh", MeterUnit.WattHours => "Wh", MeterUnit.Kilowatts => "kW", _ => "W" }}.");
    }

    private string Shown(int column) => column < sample.Header.Length && sample.Header[column].Length > 0
        ? $"'{Calendars.Shortened.Text(sample.Header[column], 40)}'"
        : $"column {column + 1}";

    private (int? Time, int? End) Times(int date)
    {
        var (time, end) = (Column(said.TimeColumn, "timeColumn"), Column(said.EndColumn, "endColumn"));
        var wholes = All(ColumnKind.DateAndTime).Where(c => c != date).ToArray();
        if (sample.Kinds[date] == ColumnKind.DateAndTime)
        {
            // Two stamps in a row: the first is the start unless the names say otherwise.
            return (time, end ?? (wholes.Length > 0 && IsEnd(sample.Name(wholes[0])) ? wholes[0] : null));
        }

        var times = All(ColumnKind.Time).ToArray();
        if (times.Length == 0 && time is null)
        {
            // Hours as numbers, 0 to 23 or 1 to 24.
            time = All(ColumnKind.Number).Cast<int?>().FirstOrDefault(c => c != date && (HasToken(sample.Name(c!.Value), "hour") || HasToken(sample.Name(c.Value), "he") || HasToken(sample.Name(c.Value), "time"))
                && sample.Data.All(r => c.Value < r.Length && StampText.SecondOfHour(r[c.Value]) is not null));
        }

        end ??= times.Length > 1 && times[1] != time ? times[1] : null;
        return (time ?? times.Cast<int?>().FirstOrDefault(c => c != end), end);
    }

    private StampLabel Label(int column, int? end)
    {
        if (said.Label is { } label)
        {
            return label;
        }

        if (end is not null)
        {
            return StampLabel.Start;
        }

        var hasMidnightAtEnd = sample.Data.Any(r => column < r.Length
            && (sample.Stamps.TryParse(r[column], out var s) ? s.SecondOfDay : StampText.SecondOfHour(r[column])) == 86_400);
        var isEnd = hasMidnightAtEnd || IsEnd(sample.Name(column));
        notes.Guess(isEnd ? "A time is the end of its interval." : "A time is the start of its interval.");
        return isEnd ? StampLabel.End : StampLabel.Start;
    }

    private static bool IsEnd(string name) => name.Contains("end", StringComparison.Ordinal) || name.Contains(" to", StringComparison.Ordinal) || name == "to";

    private List<(int Column, FlowDirection? Direction)> Values()
    {
        var named = new List<(int, FlowDirection?)>();
        foreach (var (name, field, direction) in new (string?, string, FlowDirection?)[]
        {
            (said.DeliveredColumn, "deliveredColumn", FlowDirection.Delivered), (said.ReceivedColumn, "receivedColumn", FlowDirection.Received), (said.NetColumn, "netColumn", null),
        })
        {
            if (Column(name, field) is { } column)
            {
                named.Add((column, direction));
            }
        }

        if (named.Count > 0 || said.DeliveredColumn is not null || said.ReceivedColumn is not null || said.NetColumn is not null)
        {
            return named;
        }

        var numbers = All(ColumnKind.Number).Where(IsReading).ToArray();
        var received = numbers.Where(c => HasWord(c, "received", "export", "generat", "return", "to grid", "fed", "solar", "surplus")).ToArray();
        var net = numbers.Except(received).Where(c => HasWord(c, "net")).ToArray();
        var delivered = numbers.Except(received).Except(net).ToArray();
        var stated = delivered.Where(c => HasWord(c, "kwh", "wh", "kw", "usage", "consumption", "energy", "delivered", "import", "from grid", "use")).ToArray();
        // Energy before power, and the first of several.
        delivered = stated.Length > 0 ? [.. stated.OrderByDescending(c => HasWord(c, "wh")).Take(1)] : delivered.Length == 1 ? delivered : [];
        if (delivered.Length == 0 && net.Length > 0)
        {
            return [(net[0], null)];
        }

        return [.. delivered.Take(1).Select(c => (c, (FlowDirection?)FlowDirection.Delivered)), .. received.Take(1).Select(c => (c, (FlowDirection?)FlowDirection.Received))];
    }

    private bool IsReading(int column)
    {
        var name = sample.Name(column);
        return !NotReadingsAnywhere.Any(w => name.Contains(w, StringComparison.Ordinal))
            && (name.Contains("kwh", StringComparison.Ordinal) ? !HasToken(name, "total") : !NotReadingWords.Any(w => HasToken(name, w)));
    }

    private int[] DayColumns()
    {
        if (said.DeliveredColumn is not null || said.ReceivedColumn is not null || said.NetColumn is not null
            || All(ColumnKind.DateAndTime).Any() || All(ColumnKind.Time).Any())
        {
            return [];
        }

        // A column of the extra hour is blank on nearly all days.
        var columns = Enumerable.Range(0, sample.Kinds.Count)
            .Where(c => sample.Kinds[c] is ColumnKind.Number or ColumnKind.Blank && IsInterval(sample.Name(c))).ToArray();
        var run = columns.Length > 0 ? columns.Where((c, i) => c - columns[0] == i).ToArray() : [];
        return Array.IndexOf(DayLengths, run.Length) >= 0 ? run : [];
    }

    // 1, 01:00, 1:00 AM, HE01, Hour 1, 02*, or no name at all.
    private static bool IsInterval(string name) =>
        name.Length == 0 || (name.Length <= 20 && name.Any(char.IsAsciiDigit)) || name.Contains("dst", StringComparison.Ordinal) || name.Contains("extra", StringComparison.Ordinal);

    private int? Extra(int[] columns)
    {
        if (columns.Length != 25)
        {
            return null;
        }

        for (var i = 0; i < columns.Length; i++)
        {
            var name = sample.Name(columns[i]);
            if (name.Contains('*') || name.Contains("dst", StringComparison.Ordinal) || name.Contains("extra", StringComparison.Ordinal) || (i > 0 && name.Length > 0 && name == sample.Name(columns[i - 1])))
            {
                return i;
            }
        }

        return columns.Length - 1;
    }

    private MeterUnit? Unit(int[] columns)
    {
        var texts = columns.Select(sample.Name)
            .Append(Named(ColumnKind.Other, "unit", "uom") is { } unit ? sample.Data.First()[unit].ToLowerInvariant() : "")
            .Append(sample.Preamble)
            .Append(string.Join(' ', columns.Length > 0 ? sample.Data.Take(3).Select(r => columns[0] < r.Length ? r[columns[0]].ToLowerInvariant() : "") : []));
        foreach (var text in texts)
        {
            MeterUnit? stated = text.Contains("kwh", StringComparison.Ordinal) ? MeterUnit.KilowattHours
                : HasToken(text, "wh") ? MeterUnit.WattHours
                : HasToken(text, "kw") ? MeterUnit.Kilowatts
                : HasToken(text, "w") || text.Contains("watts", StringComparison.Ordinal) ? MeterUnit.Watts
                : null;
            if (stated is not null)
            {
                return stated;
            }
        }

        if (columns.Length > 0 && HasWord(columns[0], "usage", "consumption", "energy"))
        {
            notes.Guess("The unit is not stated; it is taken as kWh.");
            return MeterUnit.KilowattHours;
        }

        return null;
    }

    private static bool HasToken(string text, string token) =>
        text.Split([' ', '(', ')', '[', ']', '_', '-', '/', ',', ':', '.'], StringSplitOptions.RemoveEmptyEntries).Contains(token);

    private bool HasWord(int column, params string[] words) => Array.Exists(words, w => sample.Name(column).Contains(w, StringComparison.Ordinal));

    private IEnumerable<int> All(ColumnKind kind) => Enumerable.Range(0, sample.Kinds.Count).Where(c => sample.Kinds[c] == kind);

    private int? First(ColumnKind kind) => All(kind).Cast<int?>().OrderBy(c => IsEnd(sample.Name(c!.Value))).FirstOrDefault();

    private int? Named(ColumnKind kind, params string[] words) => All(kind).Cast<int?>().FirstOrDefault(c => HasWord(c!.Value, words));

    /// <summary>The column that the client names; a fault where the table has none of that name.</summary>
    private int? Column(string? name, string field)
    {
        if (name is null)
        {
            return null;
        }

        var column = name.StartsWith('#') && int.TryParse(name.AsSpan(1), out var number) ? number - 1
            : Array.FindIndex(sample.Header, h => string.Equals(h, name.Trim(), StringComparison.OrdinalIgnoreCase));
        if (column >= 0 && column < sample.Kinds.Count)
        {
            return column;
        }

        notes.Fault($"#/csv/{field}", "The table must have this column.", name);
        return null;
    }
}
