using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Distances and temperatures as a screen shows them.</summary>
/// <param name="Shown">The units in which an owner wants to read them.</param>
internal sealed record Units(ShownUnits Shown)
{
    /// <summary>The sign of the unit of temperature.</summary>
    public string Degree => Shown.InFahrenheit ? "°F" : "°C";

    /// <summary>A distance in whole units.</summary>
    public string Far(double km) => $"{Figures.Whole(km / Shown.Kilometres)} {Shown.Far}";

    /// <summary>A temperature in whole degrees, with its unit.</summary>
    public string Warm(double celsius) => $"{Degrees(celsius)} {Degree}";

    /// <summary>A temperature in whole degrees.</summary>
    public string Degrees(double celsius) => Figures.Whole(Shown.Degrees(celsius));
}
