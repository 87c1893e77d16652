using ScheduleOpt.Core;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Cli.Screens;

/// <summary>The units in which an owner wants to read distances and temperatures.</summary>
/// <param name="Distance">Kilometres or miles.</param>
/// <param name="InFahrenheit">Whether temperatures are in degF.</param>
internal sealed record Units(DistanceUnit Distance, bool InFahrenheit)
{
    /// <summary>The unit of temperature that goes with a unit of distance, unless the owner says otherwise.</summary>
    public static Units For(DistanceUnit distance, bool? inFahrenheit) => new(distance, inFahrenheit ?? distance == DistanceUnit.Mile);

    /// <summary>The sign of the unit of temperature.</summary>
    public string Degree => InFahrenheit ? "°F" : "°C";

    /// <summary>A distance in whole units.</summary>
    public string Far(double km) => Distance == DistanceUnit.Mile
        ? $"{Figures.Whole(km / Core.Distance.KilometresPerMile)} mi"
        : $"{Figures.Whole(km)} km";

    /// <summary>A temperature in whole degrees, with its unit.</summary>
    public string Warm(double celsius) => $"{Degrees(celsius)} {Degree}";

    /// <summary>A temperature in whole degrees.</summary>
    public string Degrees(double celsius) =>
        Figures.Whole(InFahrenheit ? Temperature.FromCelsius(celsius).Fahrenheit : celsius);
}
