using NodaTime;
using ScheduleOpt.Core;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Hourly temperatures beside the time that is planned: what is taken where they do not cover it, and what is said of it.</summary>
/// <remarks>
/// A warning and no refusal: a hub whose forecast has stopped or was mixed up still needs tonight's schedule, and none is less safe than one at a stated temperature. Hours beyond a forecast that
/// overlaps the time planned have its nearest value. One that overlaps it nowhere knows nothing of these days: its coldest hour is taken throughout, so that trips need
/// rather too much than too little and charging is thought rather too slow than too fast.
/// </remarks>
internal static class ForecastCover
{
    /// <summary>The temperatures to plan with.</summary>
    /// <param name="weather">As the request gives them.</param>
    /// <param name="span">The time planned.</param>
    /// <param name="clock">The household's clock.</param>
    /// <param name="units">Units of the warning.</param>
    /// <param name="warnings">Where what is missing is said.</param>
    public static WeatherDocument Of(WeatherDocument weather, Interval span, DocumentClock clock, ShownUnits units, List<string> warnings)
    {
        if (weather is not WeatherDocument.Hourly { Forecast: var forecast } || forecast.Covers(span.Start, span.End))
        {
            return weather;
        }

        var planned = $"the time planned, {clock.Stamp(span.Start)} to {clock.Stamp(span.End)}";
        if (forecast.End > span.Start && forecast.Start < span.End)
        {
            warnings.Add($"weather/hourly does not cover {planned}; outside it the nearest value is taken to hold.");
            return weather;
        }

        var coldest = forecast.Celsius.Min();
        warnings.Add(
            (forecast.End <= span.Start ? $"weather/hourly ends at {clock.Stamp(forecast.End)}, before {planned}" : $"weather/hourly begins at {clock.Stamp(forecast.Start)}, after {planned}")
            + $": it says nothing of these days. Its coldest hour, {units.Warm(coldest, 1)}, is taken to hold throughout; if it gets colder, trips need more and charging takes longer than this schedule allows for.");
        return new WeatherDocument.Constant(Temperature.FromCelsius(coldest));
    }
}
