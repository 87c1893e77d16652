using System.Text.Json;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>The weather years of a comparison.</summary>
/// <param name="Years">At least one; the cells are those of the first.</param>
/// <param name="IsList">Whether they were given as a list: then results over all of them are wanted.</param>
internal sealed record WeatherYears(IReadOnlyList<WeatherYear> Years, bool IsList);

/// <summary>Reads the <c>weather</c> of a comparison: one, or a list of several years.</summary>
internal static class WeatherYearsReader
{
    /// <summary>Reads the years.</summary>
    /// <param name="maybe">The field.</param>
    /// <param name="clock">The clock of its local times.</param>
    /// <param name="year">The calendar year; none where it is faulty.</param>
    /// <param name="zone">The household's zone; none where it is faulty.</param>
    public static WeatherYears? Read(JsonField? maybe, DocumentClock clock, int? year, HouseholdZone? zone)
    {
        if (maybe is not { } field)
        {
            return null;
        }

        var isList = field.Element.ValueKind == JsonValueKind.Array;
        if ((isList ? field.Items(1, YearCaseCheck.MostWeatherYears, "weather years") : [field]) is not { } items)
        {
            return null;
        }

        var before = field.Faults.Count;
        var years = new List<WeatherYear>(items.Count);
        foreach (var item in items)
        {
            if (new WeatherReader(clock).Read(item) is not { } weather || year is not { } y || zone is null)
            {
                continue;
            }

            if (weather.AsYear(y, zone) is { } whole)
            {
                years.Add(whole);
            }
            else
            {
                item.Fault($"Must cover the whole of {y} for a comparison; hourly temperatures must have a value for each of its hours.");
            }
        }

        return field.Faults.Count > before || years.Count < items.Count ? null : new(years, isList);
    }
}
