namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Decides where a table has what: by what the client says, then by the names of columns and what they hold. Each guess is noted.</summary>
internal sealed class LayoutGuess(TableSample sample, MeterFileOptions options, ReadingNotes notes)
{
    private static readonly int[] DayLengths = [24, 25, 48, 50, 96, 100];

    private readonly CsvLayout said = options.Csv;
    private readonly TableColumns columns = new(sample, notes);
    private readonly ReadingColumns readings = new(sample, new(sample, notes), options.Csv, notes);

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
        var date = columns.Column(said.DateColumn, "dateColumn") ?? columns.First(ColumnKind.DateAndTime) ?? columns.First(ColumnKind.Date);
        if (date is not { } dates)
        {
            notes.Fault("#/csv/dateColumn", "The table must have a column of dates; name it.");
            return null;
        }

        var dayColumns = DayColumns();
        var values = dayColumns.Length > 0 ? [] : readings.Values();
        var (time, end) = Times(dates);
        var unit = said.Unit ?? readings.Unit(dayColumns.Length > 0 ? [] : [.. values.Select(v => v.Column)]);
        if (dayColumns.Length == 0 && values.Count == 0)
        {
            notes.Fault("#/csv/deliveredColumn", "The table must have a column of readings that can be told from the others; name it.",
                string.Join(", ", sample.Header));
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
            Kind = columns.Named(ColumnKind.Other, "type", "service", "direction", "commodity"),
            Quality = columns.Named(ColumnKind.Other, "quality", "estimat", "status", "flag"),
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
        var (time, end) = (columns.Column(said.TimeColumn, "timeColumn"), columns.Column(said.EndColumn, "endColumn"));
        var wholes = columns.All(ColumnKind.DateAndTime).Where(c => c != date).ToArray();
        if (sample.Kinds[date] == ColumnKind.DateAndTime)
        {
            // Two stamps in a row: the first is the start unless the names say otherwise.
            return (time, end ?? (wholes.Length > 0 && TableColumns.IsEnd(sample.Name(wholes[0])) ? wholes[0] : null));
        }

        var times = columns.All(ColumnKind.Time).ToArray();
        if (times.Length == 0 && time is null)
        {
            // Hours as numbers, 0 to 23 or 1 to 24.
            time = columns.All(ColumnKind.Number).Cast<int?>().FirstOrDefault(c => c != date
                && (TableColumns.HasToken(sample.Name(c!.Value), "hour") || TableColumns.HasToken(sample.Name(c.Value), "he")
                || TableColumns.HasToken(sample.Name(c.Value), "time"))
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
        var isEnd = hasMidnightAtEnd || TableColumns.IsEnd(sample.Name(column));
        notes.Guess(isEnd ? "A time is the end of its interval." : "A time is the start of its interval.");
        return isEnd ? StampLabel.End : StampLabel.Start;
    }

    private int[] DayColumns()
    {
        if (said.DeliveredColumn is not null || said.ReceivedColumn is not null || said.NetColumn is not null
            || columns.All(ColumnKind.DateAndTime).Any() || columns.All(ColumnKind.Time).Any())
        {
            return [];
        }

        // A column of the extra hour is blank on nearly all days.
        var candidates = Enumerable.Range(0, sample.Kinds.Count)
            .Where(c => sample.Kinds[c] is ColumnKind.Number or ColumnKind.Blank && IsInterval(sample.Name(c))).ToArray();
        var run = candidates.Length > 0 ? candidates.Where((c, i) => c - candidates[0] == i).ToArray() : [];
        return Array.IndexOf(DayLengths, run.Length) >= 0 ? run : [];
    }

    // 1, 01:00, 1:00 AM, HE01, Hour 1, 02*, or no name at all.
    private static bool IsInterval(string name) =>
        name.Length == 0 || (name.Length <= 20 && name.Any(char.IsAsciiDigit)) || name.Contains("dst", StringComparison.Ordinal)
            || name.Contains("extra", StringComparison.Ordinal);

    private int? Extra(int[] days)
    {
        if (days.Length != 25)
        {
            return null;
        }

        for (var i = 0; i < days.Length; i++)
        {
            var name = sample.Name(days[i]);
            if (name.Contains('*') || name.Contains("dst", StringComparison.Ordinal) || name.Contains("extra", StringComparison.Ordinal)
                || (i > 0 && name.Length > 0 && name == sample.Name(days[i - 1])))
            {
                return i;
            }
        }

        return days.Length - 1;
    }
}
