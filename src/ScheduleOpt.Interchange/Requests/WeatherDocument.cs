using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Outdoor temperatures as a request gives them: one for ever, a forecast, or a year of hours.</summary>
public abstract record WeatherDocument
{
    private WeatherDocument()
    {
    }

    /// <summary>The temperatures over a span.</summary>
    /// <param name="from">Start of the span.</param>
    /// <param name="until">End of the span.</param>
    /// <param name="zone">The household's zone: the hours of a weather year are counted in its standard time.</param>
    public abstract TemperatureForecast Over(Instant from, Instant until, HouseholdZone zone);

    /// <summary>One temperature for ever.</summary>
    /// <param name="Temperature">The temperature.</param>
    public sealed record Constant(Temperature Temperature) : WeatherDocument
    {
        /// <inheritdoc/>
        public override TemperatureForecast Over(Instant from, Instant until, HouseholdZone zone) => TemperatureForecast.Constant(Temperature);
    }

    /// <summary>A forecast by the hour.</summary>
    /// <param name="Forecast">The forecast.</param>
    public sealed record Hourly(TemperatureForecast Forecast) : WeatherDocument
    {
        /// <inheritdoc/>
        public override TemperatureForecast Over(Instant from, Instant until, HouseholdZone zone) => Forecast;
    }

    /// <summary>A weather year, laid on every calendar year that is asked for.</summary>
    /// <param name="Year">The weather year.</param>
    public sealed record FullYear(WeatherYear Year) : WeatherDocument
    {
        /// <inheritdoc/>
        public override TemperatureForecast Over(Instant from, Instant until, HouseholdZone zone)
        {
            ArgumentNullException.ThrowIfNull(zone);
            var first = from.InZone(zone.Zone).Year;
            var last = until.InZone(zone.Zone).Year;
            var start = zone.StartOf(new LocalDate(first, 1, 1));
            var standard = zone.Zone.GetZoneInterval(start).StandardOffset;
            var years = Enumerable.Range(first, last - first + 1).Select(year => Year.OnYear(year, standard)).ToArray();
            return new TemperatureForecast(years[0].Start, years[0].Step, years.SelectMany(y => y.Celsius));
        }
    }
}
