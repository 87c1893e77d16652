using System.Globalization;
using System.Text;
using NodaTime;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>Writes a weather year as the CSV that requests carry.</summary>
internal static class WeatherText
{
    /// <summary>Source, header and one row an hour.</summary>
    public static string Csv(WeatherYear year)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"# {year.Source}{(year.IsTypical ? " (typical year)" : "")}\nmonth,day,hour,temperature_c\n");

        // Any common year: the rows carry month and day alone.
        var at = new LocalDateTime(2001, 1, 1, 0, 0);
        foreach (var celsius in year.Celsius)
        {
            text.Append(CultureInfo.InvariantCulture, $"{at.Month},{at.Day},{at.Hour},{celsius}\n");
            at = at.PlusHours(1);
        }

        return text.ToString();
    }
}
