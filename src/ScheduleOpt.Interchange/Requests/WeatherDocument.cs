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

    /// <summary>The temperatures as a weather year; none where they do not cover it.</summary>
    /// <param name="year">The calendar year they are wanted for.</param>
    /// <param name="zone">The household's zone.</param>
    public abstract WeatherYear? AsYear(int year, HouseholdZone zone);

    /// <summary>One temperature for ever.</summary>
    /// <param name="Temperature">The temperature.</param>
    public sealed record Constant(Temperature Temperature) : WeatherDocument
    {
        /// <inheritdoc/>
        public override TemperatureForecast Over(Instant from, Instant until, HouseholdZone zone) =>
            TemperatureForecast.Constant(Temperature);

        /// <inheritdoc/>
        public override WeatherYear AsYear(int year, HouseholdZone zone) =>
            new(Enumerable.Repeat(Temperature.Celsius, WeatherYear.Hours), "one temperature for the whole year", isTypical: true);
    }

    /// <summary>A forecast by the hour.</summary>
    /// <param name="Forecast">The forecast.</param>
    public sealed record Hourly(TemperatureForecast Forecast) : WeatherDocument
    {
        /// <inheritdoc/>
        public override TemperatureForecast Over(Instant from, Instant until, HouseholdZone zone) => Forecast;

        /// <inheritdoc/>
        public override WeatherYear? AsYear(int year, HouseholdZone zone)
        {
            ArgumentNullException.ThrowIfNull(zone);
            var standard = zone.Zone.GetZoneInterval(zone.StartOf(new LocalDate(year, 1, 1))).StandardOffset;
            var start = new LocalDateTime(year, 1, 1, 0, 0).WithOffset(standard).ToInstant();
            var hours = CalendarSystem.Iso.IsLeapYear(year) ? WeatherYear.Hours + 24 : WeatherYear.Hours;
            if (!Forecast.Covers(start, start + Duration.FromHours(hours)))
            {
                return null;
            }

            const int leapDay = (31 + 28) * 24;
            var values = Enumerable.Range(0, hours)
                .Where(h => hours == WeatherYear.Hours || h is < leapDay or >= leapDay + 24)
                .Select(h => Forecast.At(start + Duration.FromHours(h)));
            return new WeatherYear(values, "the hourly temperatures of the request", isTypical: false);
        }
    }

    /// <summary>A weather year, laid on every calendar year that is asked for.</summary>
    /// <param name="Year">The weather year.</param>
    public sealed record FullYear(WeatherYear Year) : WeatherDocument
    {
        /// <inheritdoc/>
        public override WeatherYear AsYear(int year, HouseholdZone zone) => Year;

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
