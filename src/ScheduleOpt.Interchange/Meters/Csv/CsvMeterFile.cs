using ScheduleOpt.Interchange.Meters.Series;

namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Reads a utility's table of readings (RFC 4180 at most; there is no standard).</summary>
internal sealed class CsvMeterFile(MeterFileOptions options, ReadingNotes notes)
{
    public MeterReadings Read(TextReader text)
    {
        using var rows = new CsvRows(text);
        var sample = new TableSample(rows, options, notes);
        var assembly = new SeriesAssembly(options, notes);
        var channels = new List<MeterChannel>();
        if (new LayoutGuess(sample, options, notes).Find() is { } layout)
        {
            var reader = new TableReader(layout, notes);
            foreach (var (direction, readings) in reader.Read(rows))
            {
                var raw = notes.FaultCount == 0 ? new TableClockReading(layout, reader.CommonLength, options, notes).Resolve(readings)
                    : Memory<RawReading>.Empty;
                readings.Clear();
                if (notes.FaultCount == 0)
                {
                    var word = direction switch { FlowDirection.Delivered => "delivered", FlowDirection.Received => "received", _ => "net" };
                    channels.AddRange(assembly.Channels(new($"table, {word}", "#/csv", direction, false, raw)));
                }
            }
        }

        foreach (var report in channels.Select(c => c.Report).Where(r => r.DuplicatesReplaced > 10 && r.DuplicatesReplaced > r.Readings / 20))
        {
            notes.Fault("#/csv", "Each interval must be given once; a table of several meters must be divided first.",
                $"{report.DuplicatesReplaced} of {report.Readings + report.DuplicatesReplaced} rows repeat a time");
        }

        return new MeterReadings { Channels = channels };
    }
}
