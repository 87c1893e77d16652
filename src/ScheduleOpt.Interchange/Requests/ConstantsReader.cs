using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>constants</c> of a vehicle. The ranges are those of <see cref="ChargingConstants"/>.</summary>
internal static class ConstantsReader
{
    /// <summary>Reads the constants; what is not given, or faulty, has its default.</summary>
    public static ChargingConstants Read(JsonField? field)
    {
        var defaults = ChargingConstants.Default;
        if (field?.Members(
            "conversionEfficiency", "overheadKw", "heatingKwPerKelvin", "heatingBelowC", "heatingMaxKw", "taperFloorKw",
            "taperPerHour") is not { } constants)
        {
            return defaults;
        }

        return new ChargingConstants
        {
            ConversionEfficiency = constants.Number("conversionEfficiency", new(0.80, 1), defaults.ConversionEfficiency),
            OverheadKw = constants.Number("overheadKw", new(0, 1, "kW"), defaults.OverheadKw),
            HeatingKwPerKelvin = constants.Number("heatingKwPerKelvin", new(0, 0.2, "kW/K"), defaults.HeatingKwPerKelvin),
            HeatingBelowC = constants.Number("heatingBelowC", new(-20, 20, "degC"), defaults.HeatingBelowC),
            HeatingMaxKw = constants.Number("heatingMaxKw", new(0, 10, "kW"), defaults.HeatingMaxKw),
            TaperFloorKw = constants.Number("taperFloorKw", new(0.05, 10, "kW"), defaults.TaperFloorKw),
            TaperPerHour = constants.Number("taperPerHour", new(0.1, 100, "1/h"), defaults.TaperPerHour),
        };
    }
}
