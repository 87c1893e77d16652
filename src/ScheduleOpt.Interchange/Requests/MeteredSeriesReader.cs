using NodaTime;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads metered energy: <c>start</c>, <c>intervalMinutes</c>, <c>energyKwh</c>.</summary>
internal static class MeteredSeriesReader
{
    /// <summary>The most values of a series: two years and a half at a quarter of an hour, or what 1 MiB holds.</summary>
    public const int MostValues = 100_000;

    // Lists and sums of periods stay small; no meter is billed over more than this at once.
    private static readonly Duration Longest = Duration.FromDays(5 * 366);

    /// <summary>Reads a series.</summary>
    public static MeteredSeries? Read(JsonField? field, DocumentClock clock)
    {
        if (field?.Members("start", "intervalMinutes", "energyKwh") is not { } series)
        {
            return null;
        }

        var start = clock.Read(series.Required("start"), DocumentClock.Use.Departure);
        var minutes = series.Number("intervalMinutes", new(1, 1440, "min") { Whole = true });
        var energy = series.Required("energyKwh")?.Numbers(1, MostValues, new(0, 10_000, "kWh"));
        if (start is not { } first || minutes is not { } length || energy is null)
        {
            return null;
        }

        var interval = Duration.FromMinutes((long)length);
        if (interval * energy.Length > Longest)
        {
            series.Faults.Add(series.Pointer("energyKwh"), $"May cover at most {Longest.Days} days.", $"{energy.Length} x {length} min");
            return null;
        }

        return MeteredSeries.FromKilowattHours(first.Instant, interval, energy);
    }

    /// <summary>Reads exported energy: it must stand beside the import, interval by interval.</summary>
    public static MeteredSeries? ReadExport(JsonField? maybe, DocumentClock clock, MeteredSeries? import)
    {
        if (maybe is not { } field || Read(field, clock) is not { } export || import is null)
        {
            return null;
        }

        if (export.Start != import.Start)
        {
            field.Faults.Add(JsonField.Child(field.Pointer, "start"), $"Must be the start of series, {clock.Stamp(import.Start)}.", clock.Stamp(export.Start));
        }

        if (export.Interval != import.Interval)
        {
            field.Faults.Add(
                JsonField.Child(field.Pointer, "intervalMinutes"), $"Must be that of series, {import.Interval.TotalMinutes} min.", $"{export.Interval.TotalMinutes}");
        }

        if (export.Count != import.Count)
        {
            field.Faults.Add(JsonField.Child(field.Pointer, "energyKwh"), $"Must have as many values as series, {import.Count}.", $"{export.Count}");
        }

        return export;
    }
}
