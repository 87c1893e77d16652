using System.Globalization;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Interchange.Weather;

/// <summary>Reads a weather year from comma-separated values.</summary>
/// <remarks>
/// The header is <c>month,day,hour,temperature_c</c> or <c>month,day,hour,temperature_f</c>; then 8,760 rows in any order, the hour that
/// starts (0 to 23), standard time; rows of 29 February are left out. Lines that begin with <c>#</c> before the header carry the source.
/// The word 'typical' in them marks a typical year. Temperatures lie in -60 to 60 degC.
/// </remarks>
public static class WeatherCsv
{
    private const string HeaderC = "month,day,hour,temperature_c";
    private const string HeaderF = "month,day,hour,temperature_f";

    /// <summary>Reads the text.</summary>
    /// <param name="text">The document.</param>
    /// <param name="pointer">The JSON pointer that faults begin with.</param>
    public static Reading<WeatherYear> Read(string text, string pointer = "#/weather/csv")
    {
        ArgumentNullException.ThrowIfNull(text);
        var hours = new HourlyTemperatures(pointer);
        if (text.Length > TemperatureLimits.Characters)
        {
            hours.Refuse($"A weather file is at most {TemperatureLimits.Characters} characters long.", $"{text.Length}", null);
            return hours.Finish("", isTypical: false);
        }

        var source = new List<string>();
        bool? fahrenheit = null;
        foreach (var (number, line) in TextLines.Of(text))
        {
            if (line.Length == 0)
            {
                continue;
            }

            if (line.StartsWith('#'))
            {
                source.Add(line.TrimStart('#', ' '));
            }
            else if (fahrenheit is null)
            {
                fahrenheit = Header(line);
                if (fahrenheit is null)
                {
                    hours.Refuse($"The header is {HeaderC} or {HeaderF}.", line, number);
                    return hours.Finish("", isTypical: false);
                }
            }
            else
            {
                TakeRow(hours, line, number, fahrenheit.Value);
            }
        }

        if (fahrenheit is null)
        {
            hours.Refuse($"The header is {HeaderC} or {HeaderF}.", "no header", null);
        }

        return hours.Finish(
            source.Count > 0 ? string.Join(" ", source) : "not stated",
            source.Any(s => s.Contains("typical", StringComparison.OrdinalIgnoreCase)));
    }

    private static bool? Header(string line) =>
        string.Equals(line, HeaderC, StringComparison.OrdinalIgnoreCase) ? false
        : string.Equals(line, HeaderF, StringComparison.OrdinalIgnoreCase) ? true
        : null;

    private static void TakeRow(HourlyTemperatures hours, string line, int number, bool fahrenheit)
    {
        var cells = line.Split(',', 6);
        if (cells.Length != 4
            || !int.TryParse(cells[0], NumberStyles.AllowLeadingWhite, CultureInfo.InvariantCulture, out var month)
            || !int.TryParse(cells[1], NumberStyles.AllowLeadingWhite, CultureInfo.InvariantCulture, out var day)
            || !int.TryParse(cells[2], NumberStyles.AllowLeadingWhite, CultureInfo.InvariantCulture, out var hour)
            || !double.TryParse(cells[3], NumberStyles.Float, CultureInfo.InvariantCulture, out var temperature)
            || !double.IsFinite(temperature))
        {
            hours.Refuse("A row is month,day,hour,temperature in plain numbers.", line, number);
            return;
        }

        hours.Take(month, day, hour, fahrenheit ? (temperature - 32) / 1.8 : temperature, number);
    }
}
