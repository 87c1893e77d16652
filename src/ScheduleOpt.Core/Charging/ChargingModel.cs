namespace ScheduleOpt.Core.Charging;

/// <summary>How wall power becomes stored energy.</summary>
/// <remarks>The equations and their sources are in <see cref="ChargingConstants"/>. All rates are battery-side, all powers wall-side.</remarks>
public static class ChargingModel
{
    /// <summary>Power spent on warming the battery while charging. [kW, battery side]</summary>
    /// <remarks>heating(T) = min(cap, slope * max(0, onset - T)).</remarks>
    /// <example>At -4 degC with the defaults: min(2, 0.05 * 10) = 0.5 kW.</example>
    public static double HeatingKw(double temperatureC, ChargingConstants constants) =>
        Math.Min(constants.HeatingMaxKw, constants.HeatingKwPerKelvin * Math.Max(0, constants.HeatingBelowC - temperatureC));

    /// <summary>The rate at which the battery gains energy at a wall power, away from the taper. [kW]</summary>
    /// <remarks>r(P, T) = max(0, eta * P - overhead - heating(T)) for P above 0; 0 for P = 0.</remarks>
    /// <example>1.44 kW at 20 degC with the defaults: 0.93 * 1.44 - 0.22 = 1.1192 kW.</example>
    public static double NetRateKw(double wallKw, double temperatureC, ChargingConstants constants) =>
        wallKw <= 0
            ? 0
            : Math.Max(0, (constants.ConversionEfficiency * wallKw) - constants.OverheadKw - HeatingKw(temperatureC, constants));

    /// <summary>The highest rate that the battery accepts over a step that starts at the given energy. [kW]</summary>
    /// <remarks>
    /// Taper, implicit in the step: q = (floor + k * (E - e)) / (1 + k * d). Stable for any step length. Below a state of charge of 0.9 it
    /// never binds on alternating current. Assumption, from memory: see <see cref="ChargingConstants.TaperPerHour"/>.
    /// </remarks>
    /// <param name="storedKwh">Energy in the battery at the start of the step. [kWh]</param>
    /// <param name="usableKwh">Usable energy E. [kWh]</param>
    /// <param name="hours">Length of the step d. [h]</param>
    /// <param name="constants">The vehicle's constants.</param>
    public static double TaperKw(double storedKwh, double usableKwh, double hours, ChargingConstants constants) =>
        Math.Max(0, (constants.TaperFloorKw + (constants.TaperPerHour * (usableKwh - storedKwh))) / (1 + (constants.TaperPerHour * hours)));

    /// <summary>The wall power behind a battery-side rate while the car charges. [kW]</summary>
    /// <remarks>P = (q + overhead + heating(T)) / eta: while tapering the overhead goes on.</remarks>
    public static double WallKw(double netRateKw, double temperatureC, ChargingConstants constants) =>
        (netRateKw + constants.OverheadKw + HeatingKw(temperatureC, constants)) / constants.ConversionEfficiency;
}
