using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Core.Tests;

/// <summary>The vehicle that the published and worked figures are for: 60 kWh, 0.25 kWh/mi at 20 degC, constants at their defaults.</summary>
internal static class TestVehicles
{
    internal const double KwhPerMile = 0.25;

    internal static ChargingConstants Defaults => ChargingConstants.Default;

    internal static Vehicle With(double onBoardKw) => new()
    {
        UsableEnergy = Energy.FromKilowattHours(60),
        OnBoardCharger = Power.FromKilowatts(onBoardKw),
        Consumption = Consumption(1),
    };

    internal static Consumption Consumption(double sensitivity) => new()
    {
        ReferenceKwhPerKm = KwhPerMile / Distance.KilometresPerMile,
        TemperatureSensitivity = sensitivity,
    };

    internal static double Celsius(double fahrenheit) => Temperature.FromFahrenheit(fahrenheit).Celsius;
}
