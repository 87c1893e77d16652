using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Comparison.Winters;

/// <summary>A weather year with its coldest week made colder.</summary>
internal static class ColdSnap
{
    private const int HoursOfDay = 24;

    // A common year: a weather year has no 29 February.
    private const int AnyCommonYear = 2026;

    public static WeatherYear On(WeatherYear weather, ColdestWeek week, double kelvin)
    {
        var changed = weather.Celsius.ToArray();
        var days = Enumerable.Range(0, ColdestWeek.Days).Select(d => week.First.PlusDays(d)).Where(d => d is not { Month: 2, Day: 29 });
        foreach (var day in days)
        {
            var first = (new NodaTime.LocalDate(AnyCommonYear, day.Month, day.Day).DayOfYear - 1) * HoursOfDay;
            for (var h = first; h < first + HoursOfDay; h++)
            {
                changed[h] += kelvin;
            }
        }

        return new WeatherYear(changed, FormattableString.Invariant($"{weather.Source}, coldest week {-kelvin:0} K colder"), weather.IsTypical);
    }
}
