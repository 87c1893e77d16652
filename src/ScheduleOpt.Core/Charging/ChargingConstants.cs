namespace ScheduleOpt.Core.Charging;

/// <summary>The constants of the charging model of one vehicle, each with a default, a range and its basis.</summary>
/// <remarks>
/// r(P, T) = max(0, eta * P - overhead - heating(T)), heating(T) = min(cap, slope * max(0, onset - T)).
/// The defaults of efficiency and overhead are fitted to the paired measurements (2.3 kW and 11 kW, four cars) of the ADAC charging-loss
/// test of 2022; the heating slope and onset are fitted to facts of the trade (common practice, no source) and lie on the cautious side.
/// </remarks>
public sealed record ChargingConstants
{
    /// <summary>The defaults, for a car of which nothing is known.</summary>
    public static ChargingConstants Default { get; } = new();

    /// <summary>Share of wall power, beyond the overhead, that reaches the battery: eta. Default 0.93; range 0.80 to 1.</summary>
    /// <remarks>Two-point fits of the ADAC 2022 pairs give 0.922 to 0.954.</remarks>
    public double ConversionEfficiency { get; init; } = 0.93;

    /// <summary>Battery-side power that the car's own electronics take while charging. [kW] Default 0.22; range 0 to 1.</summary>
    /// <remarks>ADAC 2022: 100 to 300 W; fits of its pairs 0.13 to 0.42, median 0.20.</remarks>
    public double OverheadKw { get; init; } = 0.22;

    /// <summary>Battery heating per kelvin below the onset. [kW/K] Default 0.05; range 0 to 0.2.</summary>
    /// <remarks>Fitted to facts of the trade: common practice, no source.</remarks>
    public double HeatingKwPerKelvin { get; init; } = 0.05;

    /// <summary>The temperature below which the battery is heated while charging. [degC] Default 6; range -20 to 20.</summary>
    /// <remarks>Fitted to facts of the trade: common practice, no source.</remarks>
    public double HeatingBelowC { get; init; } = 6;

    /// <summary>The most that battery heating takes. [kW] Default 2; range 0 to 10; 0 for a car without a heater.</summary>
    /// <remarks>Engineering value: common practice, no source.</remarks>
    public double HeatingMaxKw { get; init; } = 2;

    /// <summary>The rate to which charging tapers when full. [kW] Default 0.5; range 0.05 to 10.</summary>
    /// <remarks>Assumption, from memory.</remarks>
    public double TaperFloorKw { get; init; } = 0.5;

    /// <summary>How fast the tapered rate grows with the energy still missing to full. [1/h] Default 4; range 0.1 to 100.</summary>
    /// <remarks>Assumption, from memory. With 60 kWh and 7.68 kW at the wall the taper begins at a state of charge of 0.973.</remarks>
    public double TaperPerHour { get; init; } = 4;
}
