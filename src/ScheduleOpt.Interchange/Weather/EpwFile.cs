using System.Globalization;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Interchange.Weather;

/// <summary>Reads a weather year from an EnergyPlus weather file.</summary>
/// <remarks>
/// EnergyPlus, Auxiliary Programs, "EnergyPlus Weather File (EPW) Data Dictionary": eight header lines, the first begins with LOCATION;
/// then a row an hour: year, month, day, hour 1 to 24 (the hour that ends), minute, flags, dry-bulb temperature (degC, column 7, 99.9
/// where it is missing); local standard time. 8,760 rows, or 8,784 with a 29 February that is left out. Taken as a typical year.
/// </remarks>
public static class EpwFile
{
    private const int HeaderLines = 8;
    private const double Missing = 99.9;

    /// <summary>Reads the text.</summary>
    /// <param name="text">The document.</param>
    /// <param name="pointer">The JSON pointer that faults begin with.</param>
    public static Reading<WeatherYear> Read(string text, string pointer = "#/weather/epw")
    {
        ArgumentNullException.ThrowIfNull(text);
        var hours = new HourlyTemperatures(pointer);
        if (text.Length > TemperatureLimits.Characters)
        {
            hours.Refuse($"A weather file is at most {TemperatureLimits.Characters} characters long.", $"{text.Length}", null);
            return hours.Finish("", isTypical: true);
        }

        var source = "";
        var rows = 0;
        foreach (var (number, line) in TextLines.Of(text))
        {
            if (number == 1)
            {
                if (!line.StartsWith("LOCATION,", StringComparison.OrdinalIgnoreCase))
                {
                    hours.Refuse("The first of the eight header lines begins with LOCATION.", line, number);
                    break;
                }

                source = Source(line);
            }
            else if (number > HeaderLines && line.Length > 0)
            {
                rows++;
                TakeRow(hours, line, number);
            }
        }

        if (hours.Faults.Count == 0 && rows is not (8760 or 8784))
        {
            hours.Refuse("A weather file holds 8,760 rows after eight header lines, or 8,784 with 29 February.", $"{rows} rows", null);
        }

        return hours.Finish(source, isTypical: true);
    }

    private static void TakeRow(HourlyTemperatures hours, string line, int number)
    {
        var cells = line.Split(',', 8);
        if (cells.Length < 8
            || !int.TryParse(cells[1], NumberStyles.AllowLeadingWhite, CultureInfo.InvariantCulture, out var month)
            || !int.TryParse(cells[2], NumberStyles.AllowLeadingWhite, CultureInfo.InvariantCulture, out var day)
            || !int.TryParse(cells[3], NumberStyles.AllowLeadingWhite, CultureInfo.InvariantCulture, out var hourEnding)
            || !double.TryParse(cells[6], NumberStyles.Float, CultureInfo.InvariantCulture, out var temperature))
        {
            hours.Refuse("A row holds year, month, day, hour, minute, flags and the dry-bulb temperature.", line, number);
        }
        else if (hourEnding is < 1 or > 24)
        {
            hours.Refuse("Hours are counted by their ends, 1 to 24.", $"{hourEnding}", number);
        }
        else if (temperature == Missing)
        {
            hours.Refuse("The dry-bulb temperature is missing here (99.9).", $"month {month} day {day} hour {hourEnding}", number);
        }
        else
        {
            hours.Take(month, day, hourEnding - 1, temperature, number);
        }
    }

    // LOCATION, city, state, country, source of data, station, ...
    private static string Source(string line)
    {
        var cells = line.Split(',');
        return string.Join(", ", cells.Skip(1).Take(5).Select(c => c.Trim()).Where(c => c.Length is > 0 and < 100));
    }
}
