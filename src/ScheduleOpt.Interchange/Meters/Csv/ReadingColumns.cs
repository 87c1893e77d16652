namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Tells columns of readings, and their unit, from the others.</summary>
internal sealed class ReadingColumns(TableSample sample, TableColumns columns, CsvLayout said, ReadingNotes notes)
{
    private static readonly string[] NotReadingsAnywhere = ["cost", "price", "$", "£", "€", "amount", "charge", "temp", "bill"];

    private static readonly string[] NotReadingWords =
        ["rate", "account", "meter", "number", "service", "id", "day", "year", "month", "hour", "total", "sum", "max", "min", "no"];

    /// <summary>Columns of readings: those that the client names, else one for each flow.</summary>
    public List<(int Column, FlowDirection? Direction)> Values()
    {
        var named = new List<(int, FlowDirection?)>();
        foreach (var (name, field, direction) in new (string?, string, FlowDirection?)[]
        {
            (said.DeliveredColumn, "deliveredColumn", FlowDirection.Delivered),
            (said.ReceivedColumn, "receivedColumn", FlowDirection.Received),
            (said.NetColumn, "netColumn", null),
        })
        {
            if (columns.Column(name, field) is { } column)
            {
                named.Add((column, direction));
            }
        }

        if (named.Count > 0 || said.DeliveredColumn is not null || said.ReceivedColumn is not null || said.NetColumn is not null)
        {
            return named;
        }

        var numbers = columns.All(ColumnKind.Number).Where(IsReading).ToArray();
        var received = numbers.Where(c => columns.HasWord(c, "received", "export", "generat", "return", "to grid", "fed", "solar", "surplus")).ToArray();
        var net = numbers.Except(received).Where(c => columns.HasWord(c, "net")).ToArray();
        var delivered = numbers.Except(received).Except(net).ToArray();
        var stated = delivered.Where(c => columns.HasWord(c, "kwh", "wh", "kw", "usage", "consumption", "energy", "delivered", "import",
            "from grid", "use")).ToArray();
        // Energy before power, and the first of several.
        delivered = stated.Length > 0 ? [.. stated.OrderByDescending(c => columns.HasWord(c, "wh")).Take(1)] : delivered.Length == 1 ? delivered : [];
        if (delivered.Length == 0 && net.Length > 0)
        {
            return [(net[0], null)];
        }

        return
        [
            .. delivered.Take(1).Select(c => (c, (FlowDirection?)FlowDirection.Delivered)),
            .. received.Take(1).Select(c => (c, (FlowDirection?)FlowDirection.Received)),
        ];
    }

    private bool IsReading(int column)
    {
        var name = sample.Name(column);
        return !NotReadingsAnywhere.Any(w => name.Contains(w, StringComparison.Ordinal))
            && (name.Contains("kwh", StringComparison.Ordinal) ? !TableColumns.HasToken(name, "total")
                : !NotReadingWords.Any(w => TableColumns.HasToken(name, w)));
    }

    /// <summary>Unit of the readings of some columns; none where the table does not say.</summary>
    public MeterUnit? Unit(int[] readings)
    {
        var texts = readings.Select(sample.Name)
            .Append(columns.Named(ColumnKind.Other, "unit", "uom") is { } unit ? sample.Data.First()[unit].ToLowerInvariant() : "")
            .Append(sample.Preamble)
            .Append(string.Join(' ', readings.Length > 0 ? sample.Data.Take(3).Select(r => readings[0] < r.Length
                ? r[readings[0]].ToLowerInvariant() : "") : []));
        foreach (var text in texts)
        {
            MeterUnit? stated = text.Contains("kwh", StringComparison.Ordinal) ? MeterUnit.KilowattHours
                : TableColumns.HasToken(text, "wh") ? MeterUnit.WattHours
                : TableColumns.HasToken(text, "kw") ? MeterUnit.Kilowatts
                : TableColumns.HasToken(text, "w") || text.Contains("watts", StringComparison.Ordinal) ? MeterUnit.Watts
                : null;
            if (stated is not null)
            {
                return stated;
            }
        }

        if (readings.Length > 0 && columns.HasWord(readings[0], "usage", "consumption", "energy"))
        {
            notes.Guess("The unit is not stated; it is taken as kWh.");
            return MeterUnit.KilowattHours;
        }

        return null;
    }
}
