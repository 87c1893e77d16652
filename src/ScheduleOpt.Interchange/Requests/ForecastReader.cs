using NodaTime;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads what is expected of the coming days interval by interval: solar production, grams of carbon dioxide a kWh.</summary>
internal static class ForecastReader
{
    // Five minutes over the longest schedule and the week before a plug-in.
    private const int MostValues = 12_000;

    private static readonly int[] Minutes = [5, 10, 15, 30, 60];

    /// <summary>Reads a forecast.</summary>
    /// <param name="field">The object.</param>
    /// <param name="clock">The clock of its start.</param>
    /// <param name="values">Name of the values.</param>
    /// <param name="limits">Their range.</param>
    public static Forecast? Read(JsonField? field, DocumentClock clock, string values, Limits limits)
    {
        if (field?.Members("start", "intervalMinutes", values) is not { } forecast)
        {
            return null;
        }

        var start = clock.Read(forecast.Required("start"), DocumentClock.Use.Departure);
        var minutes = Length(forecast.Required("intervalMinutes"));
        var numbers = forecast.Required(values)?.Numbers(1, MostValues, limits);
        return start is { } first && minutes is { } length && numbers is not null
            ? new(first.Instant, Duration.FromMinutes(length), numbers)
            : null;
    }

    private static int? Length(JsonField? maybe)
    {
        if (maybe is not { } field)
        {
            return null;
        }

        if (field.Element.ValueKind == System.Text.Json.JsonValueKind.Number && field.Element.TryGetInt32(out var minutes) && Minutes.Contains(minutes))
        {
            return minutes;
        }

        field.Fault($"Must be one of {string.Join(", ", Minutes)} min.");
        return null;
    }
}
