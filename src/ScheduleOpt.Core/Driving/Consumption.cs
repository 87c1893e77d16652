namespace ScheduleOpt.Core.Driving;

/// <summary>Energy per distance against temperature, battery side.</summary>
/// <remarks>
/// c(T) = c_ref * (1 + sigma * (f0(T) - 1)), f0 piecewise linear through <see cref="Knots"/> and constant outside.
/// Anchors of f0: Yuksel and Michalek, Environ. Sci. Technol. 49 (2015), doi 10.1021/es505621s (1.265 at 0 degC, 1.36 at 20 degF,
/// 1.40 at -10 degC); AAA, Electric Vehicle Range Testing (2019), 1.55 to 1.64 at 20 degF with full cabin heat; later AAA 1.116 at 95 degF.
/// </remarks>
public sealed record Consumption
{
    private static readonly (double Celsius, double Factor)[] Knots =
    [
        (-30, 1.90), (-20, 1.65), (-10, 1.45), (-5, 1.35), (0, 1.25), (5, 1.16), (10, 1.08),
        (15, 1.02), (20, 1.00), (25, 1.02), (30, 1.07), (35, 1.13), (40, 1.20),
    ];

    /// <summary>Consumption at 20 degC, battery side: c_ref. [kWh/km] Documents take 0.05 to 1.</summary>
    public required double ReferenceKwhPerKm { get; init; }

    /// <summary>How strongly the car answers to temperature: sigma. Default 1; range 0 to 3.</summary>
    /// <remarks>1.6 for short trips with resistive heat (AAA 2019 at 20 degF: 1.55 to 1.64); 0.6 with a heat pump (from memory).</remarks>
    public double TemperatureSensitivity { get; init; } = 1;

    /// <summary>Standard deviation of a trip's consumption over its mean. Default 0.10; range 0 to 0.5.</summary>
    /// <remarks>Assumption, no source; calibrated per household once trips have been recorded.</remarks>
    public double Spread { get; init; } = 0.10;

    /// <summary>The factor f(T) on the consumption at 20 degC.</summary>
    /// <example>At 20 degF (-6.67 degC), sigma 1: 1.383.</example>
    public double Factor(double temperatureC) => 1 + (TemperatureSensitivity * (BaseFactor(temperatureC) - 1));

    /// <summary>The energy that a distance needs at a temperature, battery side. [kWh]</summary>
    public Energy For(Distance distance, double temperatureC) =>
        Energy.FromKilowattHours(distance.Kilometres * ReferenceKwhPerKm * Factor(temperatureC));

    private static double BaseFactor(double celsius)
    {
        if (celsius <= Knots[0].Celsius)
        {
            return Knots[0].Factor;
        }

        for (var i = 1; i < Knots.Length; i++)
        {
            if (celsius <= Knots[i].Celsius)
            {
                var (lowC, lowF) = Knots[i - 1];
                var (highC, highF) = Knots[i];
                return lowF + ((highF - lowF) * (celsius - lowC) / (highC - lowC));
            }
        }

        return Knots[^1].Factor;
    }
}
