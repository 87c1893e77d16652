using System.Globalization;
using System.Text.RegularExpressions;
using ScheduleOpt.Core;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>Finds distances that people write into the text of an event, such as "64 km" or "1,200 miles".</summary>
internal static partial class DistanceText
{
    /// <summary>Every distance above zero in a text, in order.</summary>
    internal static IEnumerable<Distance> In(string text)
    {
        foreach (Match match in Written().Matches(text))
        {
            var number = match.Groups["grouped"].Success
                ? match.Groups["grouped"].Value.Replace(",", "", StringComparison.Ordinal)
                : match.Groups["plain"].Value.Replace(',', '.');
            var value = double.Parse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
            if (value > 0)
            {
                yield return match.Groups["unit"].Value[0] is 'k' or 'K' ? Distance.FromKilometres(value) : Distance.FromMiles(value);
            }
        }
    }

    // Every repetition is bounded, so the search takes time in proportion to the text.
    // Not after a digit, a point or a stroke ("15 kWh/100 km" is a consumption), not before a stroke ("100 km/h" is a speed).
    [GeneratedRegex(
        @"(?<![\d.,/])(?:(?<grouped>\d{1,3},\d{3})|(?<plain>\d{1,4}(?:[.,]\d{1,2})?))"
            + @"\s{0,3}(?<unit>km|kilomet[a-z]{1,10}|miles?|mi)\b(?!\s{0,3}/)",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Written();
}
