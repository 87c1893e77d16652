using System.Globalization;
using ScheduleOpt.Core;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>The units in which distances and temperatures are shown to people: the one place that says which temperature goes with which distance.</summary>
/// <param name="Distance">Kilometres or miles.</param>
/// <param name="InFahrenheit">Whether temperatures are in degF.</param>
public sealed record ShownUnits(DistanceUnit Distance, bool InFahrenheit)
{
    /// <summary>The sign of the unit of distance.</summary>
    public string Far => Distance == DistanceUnit.Mile ? "mi" : "km";

    /// <summary>The unit of distance. [km]</summary>
    public double Kilometres => Distance == DistanceUnit.Mile ? Core.Distance.KilometresPerMile : 1;

    /// <summary>The unit of temperature as reports write it.</summary>
    public string Degree => InFahrenheit ? "degF" : "degC";

    /// <summary>Degrees Fahrenheit with miles, degrees Celsius with kilometres, unless somebody says otherwise.</summary>
    public static ShownUnits For(DistanceUnit distance, bool? inFahrenheit = null) => new(distance, inFahrenheit ?? distance == DistanceUnit.Mile);

    /// <summary>A temperature with its unit.</summary>
    /// <param name="celsius">The temperature. [degC]</param>
    /// <param name="digits">Digits after the point, at most.</param>
    public string Warm(double celsius, int digits) =>
        Math.Round(Degrees(celsius), digits, MidpointRounding.AwayFromZero).ToString("0." + new string('#', digits), CultureInfo.InvariantCulture) + " " + Degree;

    /// <summary>A temperature in degrees of this unit.</summary>
    /// <param name="celsius">The temperature. [degC]</param>
    public double Degrees(double celsius) => InFahrenheit ? Temperature.FromCelsius(celsius).Fahrenheit : celsius;
}
