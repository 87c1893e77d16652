using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>vehicle</c> of a request.</summary>
internal static class VehicleReader
{
    private static readonly Limits Per100Km = new(5, 100, "kWh/100 km");

    // The same limits a mile, rounded outward so that neither unit refuses what the other takes.
    private static readonly Limits Per100Mi = new(8, 161, "kWh/100 mi");

    /// <summary>Reads a vehicle.</summary>
    public static Vehicle? Read(JsonField? field)
    {
        if (field?.Members(
            "usableEnergyKwh", "onBoardChargerKw", "consumptionKwhPer100Km", "consumptionKwhPer100Mi", "temperatureSensitivity",
            "consumptionSpread", "ordinaryLimit", "extendedLimit", "minimumStateOfCharge", "minimumCurrentA",
            "constants") is not { } vehicle)
        {
            return null;
        }

        var before = vehicle.Faults.Count;
        var defaults = new Vehicle { UsableEnergy = default, OnBoardCharger = default, Consumption = new() { ReferenceKwhPerKm = 0 } };
        var usable = vehicle.Number("usableEnergyKwh", new(1, 300, "kWh"));
        var charger = vehicle.Number("onBoardChargerKw", new(0.5, 50, "kW"));
        var perKm = ReferenceKwhPerKm(vehicle);
        var sensitivity = vehicle.Number("temperatureSensitivity", new(0, 3), defaults.Consumption.TemperatureSensitivity);
        var spread = vehicle.Number("consumptionSpread", new(0, 0.5), defaults.Consumption.Spread);
        var ordinary = vehicle.Number("ordinaryLimit", Limits.Fraction, defaults.OrdinaryLimit.Fraction);
        var extended = vehicle.Number("extendedLimit", Limits.Fraction, Math.Max(ordinary, defaults.ExtendedLimit.Fraction));
        var minimum = vehicle.Number("minimumStateOfCharge", Limits.Fraction, defaults.Minimum.Fraction);
        var minimumA = vehicle.Number("minimumCurrentA", new(6, 32, "A"), defaults.MinimumCurrentA);
        var constants = ConstantsReader.Read(vehicle.Optional("constants"));
        if (ordinary > extended)
        {
            vehicle.Faults.Add(
                vehicle.Pointer("ordinaryLimit"),
                $"Must not be above extendedLimit, which is {Plain.Number(extended)}.",
                Plain.Number(ordinary));
        }

        if (minimum >= ordinary)
        {
            vehicle.Faults.Add(
                vehicle.Pointer("minimumStateOfCharge"),
                $"Must be below ordinaryLimit, which is {Plain.Number(ordinary)}.",
                Plain.Number(minimum));
        }

        return vehicle.Faults.Count > before
            ? null
            : new Vehicle
            {
                UsableEnergy = Energy.FromKilowattHours(usable!.Value),
                OnBoardCharger = Power.FromKilowatts(charger!.Value),
                Consumption = new Consumption
                {
                    ReferenceKwhPerKm = perKm!.Value,
                    TemperatureSensitivity = sensitivity,
                    Spread = spread,
                },
                OrdinaryLimit = StateOfCharge.FromFraction(ordinary),
                ExtendedLimit = StateOfCharge.FromFraction(extended),
                Minimum = StateOfCharge.FromFraction(minimum),
                MinimumCurrentA = minimumA,
                Constants = constants,
            };
    }

    /// <summary>The extended limit, or the whole battery where the vehicle is faulty: its own faults are noted already.</summary>
    public static StateOfCharge ExtendedLimitOf(Vehicle? vehicle) => vehicle?.ExtendedLimit ?? StateOfCharge.FromFraction(1);

    private static double? ReferenceKwhPerKm(JsonMembers vehicle)
    {
        if (vehicle.ExactlyOne("consumptionKwhPer100Km", "consumptionKwhPer100Mi") is not { } field)
        {
            return null;
        }

        return vehicle.Has("consumptionKwhPer100Km")
            ? field.Number(Per100Km) / 100
            : field.Number(Per100Mi) / 100 / Distance.KilometresPerMile;
    }
}
