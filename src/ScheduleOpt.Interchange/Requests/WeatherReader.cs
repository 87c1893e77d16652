using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Interchange.Weather;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>weather</c> of a request, in any of its forms.</summary>
internal sealed class WeatherReader(DocumentClock clock)
{
    private const int MostHours = 9000;

    /// <summary>Reads the temperatures.</summary>
    public WeatherDocument? Read(JsonField? field)
    {
        if (field?.Members("temperatureC", "temperatureF", "hourly", "monthly", "csv", "epw") is not { } weather
            || weather.ExactlyOne("temperatureC", "temperatureF", "hourly", "monthly", "csv", "epw") is not { } form)
        {
            return null;
        }

        if (weather.Has("temperatureC"))
        {
            return form.Number(Limits.Celsius) is { } celsius ? new WeatherDocument.Constant(Temperature.FromCelsius(celsius)) : null;
        }

        if (weather.Has("temperatureF"))
        {
            return form.Number(Limits.Fahrenheit) is { } fahrenheit
                ? new WeatherDocument.Constant(Temperature.FromFahrenheit(fahrenheit))
                : null;
        }

        return weather.Has("hourly") ? Hourly(form)
            : weather.Has("monthly") ? Monthly(form)
            : form.Text(JsonText.MostBytes) is { } text
                ? FullYear(form, weather.Has("csv") ? WeatherCsv.Read(text, form.Pointer) : EpwFile.Read(text, form.Pointer))
                : null;
    }

    private static WeatherDocument.FullYear? FullYear(JsonField field, Reading<WeatherYear> reading)
    {
        if (reading.IsRead)
        {
            return new(reading.Value);
        }

        field.Faults.AddAll(reading.Faults);
        return null;
    }

    private static double[]? Celsius(JsonMembers members, string celsius, string fahrenheit, int least, int most)
    {
        if (members.ExactlyOne(celsius, fahrenheit) is not { } field)
        {
            return null;
        }

        return members.Has(celsius)
            ? field.Numbers(least, most, Limits.Celsius)
            : field.Numbers(least, most, Limits.Fahrenheit)?.Select(f => Temperature.FromFahrenheit(f).Celsius).ToArray();
    }

    private WeatherDocument.Hourly? Hourly(JsonField field)
    {
        if (field.Members("start", "temperatureC", "temperatureF") is not { } hourly)
        {
            return null;
        }

        var start = clock.Read(hourly.Required("start"), DocumentClock.Use.Departure);
        var celsius = Celsius(hourly, "temperatureC", "temperatureF", 1, MostHours);
        return start is { } first && celsius is not null
            ? new(new TemperatureForecast(first.Instant, Duration.FromHours(1), celsius))
            : null;
    }

    private static WeatherDocument.FullYear? Monthly(JsonField field)
    {
        if (field.Members("lowC", "highC", "lowF", "highF") is not { } monthly)
        {
            return null;
        }

        var low = Celsius(monthly, "lowC", "lowF", 12, 12);
        var high = Celsius(monthly, "highC", "highF", 12, 12);
        return low is null || high is null ? null : FullYear(field, MonthlyMeans.ToWeatherYear(low, high, field.Pointer));
    }
}
