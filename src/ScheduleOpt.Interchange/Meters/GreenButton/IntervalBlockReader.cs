using ScheduleOpt.Interchange.Meters.Series;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Reads the readings of a block.</summary>
internal sealed class IntervalBlockReader(EspiCursor cursor, ReadingNotes notes, string pointer, List<RawReading> readings)
{
    private const long Int48 = 1L << 47;

    private decimal? cost;
    private int number;

    public IntervalBlock Read(EspiLinks links)
    {
        var first = readings.Count;
        long? start = null, duration = null;
        cursor.Children(name =>
        {
            switch (name)
            {
                case "interval":
                    (start, duration) = PayloadReader.Period(cursor, pointer);
                    break;
                case "IntervalReading":
                    Reading();
                    break;
            }
        });
        return new(links, pointer, start, duration ?? 0, first, readings.Count - first, cost);
    }

    private void Reading()
    {
        var at = $"{pointer}/IntervalReading/{number++}";
        var line = cursor.Line;
        long? start = null, duration = null, value = null;
        var (quality, hasValue) = (ReadingQuality.NotStated, false);
        cursor.Children(name =>
        {
            switch (name)
            {
                case "value":
                    hasValue = true;
                    value = cursor.Whole(at, -Int48, Int48 - 1);
                    break;
                case "timePeriod":
                    (start, duration) = PayloadReader.Period(cursor, at);
                    break;
                case "cost" when cursor.Whole(at, -Int48, Int48 - 1) is { } amount:
                    cost = (cost ?? 0) + amount;
                    break;
                case "ReadingQuality":
                    quality = Worse(quality, at);
                    break;
            }
        });
        if (!hasValue)
        {
            notes.Fault($"{at}/value", "A reading must have a value.", "", line);
        }

        if (value is not { } measured)
        {
            return;
        }

        if (readings.Count >= MeterLimits.Readings)
        {
            throw new FileRefusedException(new("#", $"A file must not have more than {MeterLimits.Readings} readings.", "", line));
        }

        readings.Add(new(start ?? EspiFeed.NoStart, (int)(duration ?? EspiFeed.NoDuration), measured, 0, quality));
    }

    private ReadingQuality Worse(ReadingQuality quality, string at)
    {
        cursor.Children(name =>
        {
            if (name == "quality" && cursor.Whole(at, 0, 255) is { } code)
            {
                var stated = ReadingQualities.OfCode((int)code);
                quality = quality == ReadingQuality.NotStated ? stated : ReadingQualities.Worse(quality, stated);
            }
        });
        return quality;
    }
}
