using System.Text.Json;
using NodaTime;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads <c>prices</c>: published prices interval by interval, each series under the name by which rate plans know it.</summary>
internal static class PriceSeriesReader
{
    private const int MostSeries = 20;
    private const int MostValues = 100_000;

    // Rate-plan documents hold prices of the same range.
    private static readonly Limits PerKwh = new(-5, 100, "per kWh");

    // Five minutes is the finest that markets settle.
    private static readonly Limits Minutes = new(5, 1440, "min") { Whole = true };

    /// <summary>Reads the series.</summary>
    /// <param name="maybe">The object.</param>
    /// <param name="clock">The clock of local times.</param>
    /// <param name="known">Names that the rate plans follow; none where a plan is faulty: names are not judged then.</param>
    public static Dictionary<string, PriceSeries> Read(JsonField? maybe, DocumentClock clock, IReadOnlyCollection<string>? known)
    {
        var read = new Dictionary<string, PriceSeries>();
        if (maybe is not { } field || field.Entries(MostSeries, "price series") is not { } entries)
        {
            return read;
        }

        foreach (var (name, entry) in entries)
        {
            if (known?.Contains(name) == false)
            {
                entry.Faults.Add(
                    entry.Pointer,
                    known.Count == 0 ? "No rate plan here follows a price series." : $"No rate plan here follows a price series of this name. Known: {string.Join(", ", known)}.",
                    JsonField.Shortened(name));
            }

            if (Series(entry, clock) is { } series)
            {
                read[name] = series;
            }
        }

        return read;
    }

    private static PriceSeries? Series(JsonField field, DocumentClock clock)
    {
        if (field.Members("start", "intervalMinutes", "pricePerKwh") is not { } series)
        {
            return null;
        }

        var start = clock.Read(series.Required("start"), DocumentClock.Use.Departure);
        var minutes = series.Number("intervalMinutes", Minutes);
        var prices = series.Required("pricePerKwh") is { } list ? Prices(list) : null;
        return start is { } first && minutes is { } length && prices is not null ? new(first.Instant, Duration.FromMinutes((long)length), prices) : null;
    }

    private static decimal?[]? Prices(JsonField field)
    {
        if (field.Items(1, MostValues, "prices") is not { } items)
        {
            return null;
        }

        var before = field.Faults.Count;
        var prices = new decimal?[items.Count];
        for (var i = 0; i < prices.Length; i++)
        {
            // null: not published; the rate plan's rule for missing prices holds.
            prices[i] = items[i].Element.ValueKind == JsonValueKind.Null ? null : items[i].Exact(PerKwh);
        }

        return field.Faults.Count == before ? prices : null;
    }
}
